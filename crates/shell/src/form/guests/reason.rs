use super::GuestKind;
use gable_words::tr;
use std::fmt;

/// Why a part of a kind cannot stand somewhere. Written for the person who wanted it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoGuest {
    /// The house has no such part or side.
    NoSuchPlace,
    /// The host cannot be built itself.
    HostFails {
        /// Its name.
        host: String,
    },
    /// The host stands on a roof, and the kind on the board.
    HostIsUp {
        /// What was wanted.
        kind: GuestKind,
        /// Name of the host.
        host: String,
    },
    /// No wall stands at the side.
    NoWall {
        /// What was wanted.
        kind: GuestKind,
        /// Name of the host.
        host: String,
        /// Its side, if one was chosen.
        side: Option<String>,
    },
    /// No slope rises from the side.
    NoSlope {
        /// What was wanted.
        kind: GuestKind,
        /// Name of the host.
        host: String,
        /// Its side, if one was chosen.
        side: Option<String>,
    },
    /// The host has neither a flat top nor a point.
    NoTop {
        /// Name of the host.
        host: String,
    },
    /// The wall or the slope is too small, or too low.
    TooSmall {
        /// What was wanted.
        kind: GuestKind,
        /// Name of the host.
        host: String,
        /// Its side, if one was chosen.
        side: Option<String>,
    },
    /// Other parts take all the room.
    NoRoom {
        /// What was wanted.
        kind: GuestKind,
        /// Name of the host.
        host: String,
        /// Its side, if one was chosen.
        side: Option<String>,
    },
}

impl std::error::Error for NoGuest {}

impl fmt::Display for NoGuest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let word = |kind: &GuestKind| kind.name().to_lowercase();
        let at = |host: &str, side: &Option<String>| match side {
            Some(side) => tr!("{} of {host}", spoken(side)),
            None => host.to_owned(),
        };
        match self {
            Self::NoSuchPlace => f.write_str(tr!("choose a part of the house first")),
            Self::HostFails { host } => write!(f, "{}", tr!("{host} cannot be built as it is; mend that first")),
            Self::HostIsUp { kind, host } => {
                write!(
                    f,
                    "{}",
                    tr!("a {} stands on the board, and {host} does not; choose a part that does", word(kind))
                )
            }
            Self::NoWall { kind, host, side } => {
                write!(f, "{}", tr!("a {} stands against a wall, and there is none at {}", word(kind), at(host, side)))
            }
            Self::NoSlope { kind, host, side: Some(side) } => {
                let (word, side) = (word(kind), spoken(side));
                write!(
                    f,
                    "{}",
                    tr!("a {word} stands on a slope, and none rises from {side} of {host}; choose another side")
                )
            }
            Self::NoSlope { kind, host, side: None } => {
                write!(f, "{}", tr!("a {} stands on a slope, and {host} has none", word(kind)))
            }
            Self::NoTop { host } => {
                write!(
                    f,
                    "{}",
                    tr!("a lantern stands on a flat roof or on the point of a roof, and {host} has neither")
                )
            }
            Self::TooSmall { kind, host, side } => {
                write!(f, "{}", tr!("{} is too small or too low for a {} in this dough", at(host, side), word(kind)))
            }
            Self::NoRoom { kind, host, side } => {
                let (word, place) = (word(kind), at(host, side));
                write!(
                    f,
                    "{}",
                    tr!("there is no room for a {word} at {place}; move other parts or choose another side")
                )
            }
        }
    }
}

/// A side in a sentence.
fn spoken(side: &str) -> String {
    if side.parse::<u8>().is_ok() { tr!("side {side}") } else { tr!("the {side}") }
}
