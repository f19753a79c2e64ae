//! What the program can be told to do.

mod group;

use gable_words::tr;
pub(crate) use group::Group;

use crate::several::{Line, Space};
use egui::{Key, KeyboardShortcut, Modifiers};

/// Everything the program can be told to do; menus, shortcuts, tooltips and the key card are made from it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Action {
    /// Choose a small house to start from.
    New,
    /// Open a house file.
    Open,
    /// Write the house to its file.
    Save,
    /// Write the house to another file.
    SaveAs,
    /// Make the printed set.
    MakePack,
    /// Show how the house is baked.
    Bake,
    /// Say what will stand and travel.
    Stand,
    /// Write the house as files for other programs.
    WriteFiles,
    /// Write what is seen of the house as a picture.
    SavePicture,
    /// Say who bakes, and which trays there are.
    Trays,
    /// Say how the program shall be.
    Settings,
    /// Close the window.
    Quit,
    /// Take the last step back.
    Undo,
    /// Do the last undone step again.
    Redo,
    /// Make the house larger or smaller.
    Resize,
    /// Select everything on the drawing table.
    SelectAll,
    /// Take away what is selected.
    Remove,
    /// Bring what is selected onto one line.
    LineUp(Line),
    /// Make the spaces between what is selected equal.
    Space(Space),
    /// Show the whole house in the view.
    FitView,
    /// Look at a corner from a little above.
    LookCorner,
    /// Look at the front.
    LookFront,
    /// Look at the right side.
    LookRight,
    /// Look at the back.
    LookBack,
    /// Look at the left side.
    LookLeft,
    /// Look down on the roof.
    LookDown,
    /// Draw what is far as large as what is near, or not.
    Parallel,
    /// Lay every piece on the table.
    Flat,
    /// Let the house stand.
    Standing,
    /// Show or hide icing.
    Icing,
    /// Show or hide letters of joints.
    Letters,
    /// Show the whole drawing on the table.
    FitTable,
    /// Let walls be seen through, or not.
    Clear,
    /// Cut the house through, or not.
    Cut,
    /// Show the house while it is put up, or finished.
    Stages,
    /// Show only what is selected, or everything.
    ShowOnly,
    /// Lamps lit, or day.
    Evening,
    /// Colour pieces by what was noticed of them.
    Noticed,
    /// Colour pieces by how well they will stand.
    Weak,
    /// Colour pieces by what bakes alike.
    Alike,
    /// Colour pieces by their narrowest strips.
    Narrow,
    /// Put the plan on the table.
    LayPlan,
    /// Measure on the table between two places.
    Measure,
    /// Light or dark.
    SwitchTheme,
    /// Make text and everything round it larger.
    Larger,
    /// Make it smaller.
    Smaller,
    /// Its usual size again.
    UsualSize,
    /// Show every key.
    Keys,
    /// Make a page of every key.
    KeyCard,
}

const CTRL: Modifiers = Modifiers::COMMAND;
const CTRL_SHIFT: Modifiers = Modifiers { shift: true, ..Modifiers::COMMAND };

impl Action {
    /// Every action, in the order of the menus.
    pub(crate) const ALL: [Self; 56] = [
        Self::New,
        Self::Open,
        Self::Save,
        Self::SaveAs,
        Self::MakePack,
        Self::Bake,
        Self::Stand,
        Self::WriteFiles,
        Self::SavePicture,
        Self::Trays,
        Self::Settings,
        Self::Quit,
        Self::Undo,
        Self::Redo,
        Self::Resize,
        Self::SelectAll,
        Self::Remove,
        Self::LineUp(Line::Left),
        Self::LineUp(Line::Middle),
        Self::LineUp(Line::Right),
        Self::LineUp(Line::Lower),
        Self::LineUp(Line::Level),
        Self::LineUp(Line::Upper),
        Self::Space(Space::Across),
        Self::Space(Space::Upwards),
        Self::Space(Space::Ends),
        Self::FitView,
        Self::LookCorner,
        Self::LookFront,
        Self::LookRight,
        Self::LookBack,
        Self::LookLeft,
        Self::LookDown,
        Self::Parallel,
        Self::Flat,
        Self::Standing,
        Self::Icing,
        Self::Letters,
        Self::Clear,
        Self::Cut,
        Self::Stages,
        Self::ShowOnly,
        Self::Evening,
        Self::Noticed,
        Self::Weak,
        Self::Narrow,
        Self::Alike,
        Self::FitTable,
        Self::LayPlan,
        Self::Measure,
        Self::SwitchTheme,
        Self::Larger,
        Self::Smaller,
        Self::UsualSize,
        Self::Keys,
        Self::KeyCard,
    ];

    /// The menu that it is in.
    pub(crate) fn group(self) -> Group {
        use Action::{
            Alike, Bake, Clear, Cut, Evening, FitView, Flat, Icing, KeyCard, Keys, Letters, LineUp, LookBack,
            LookCorner, LookDown, LookFront, LookLeft, LookRight, MakePack, Narrow, New, Noticed, Open, Parallel, Quit,
            Redo, Remove, Resize, Save, SaveAs, SavePicture, SelectAll, Settings, ShowOnly, Space, Stages, Stand,
            Standing, Trays, Undo, Weak, WriteFiles,
        };
        match self {
            New | Open | Save | SaveAs | MakePack | Bake | Stand | WriteFiles | SavePicture => Group::House,
            Trays | Settings | Quit => Group::House,
            Undo | Redo | Resize => Group::Edit,
            SelectAll | Remove | LineUp(_) | Space(_) => Group::Selected,
            FitView | LookCorner | LookFront | LookRight | LookBack | LookLeft | LookDown | Parallel => Group::View,
            Flat | Standing | Icing | Letters | Clear | Cut | Stages | ShowOnly | Evening | Noticed | Weak | Narrow
            | Alike => Group::View,
            Keys | KeyCard => Group::Help,
            _ => Group::Look,
        }
    }

    /// What menus call it.
    pub(crate) fn label(self) -> &'static str {
        match self {
            Self::New => tr!("New house…"),
            Self::Open => tr!("Open…"),
            Self::Save => tr!("Save"),
            Self::SaveAs => tr!("Save as…"),
            Self::MakePack => tr!("Make the pack…"),
            Self::Bake => tr!("The bake…"),
            Self::Stand => tr!("Will it stand?…"),
            Self::WriteFiles => tr!("Write other files…"),
            Self::SavePicture => tr!("Save the picture…"),
            Self::Trays => tr!("Your kitchen…"),
            Self::Settings => tr!("Settings…"),
            Self::Quit => tr!("Close"),
            Self::Undo => tr!("Undo"),
            Self::Redo => tr!("Redo"),
            Self::Resize => tr!("Larger or smaller…"),
            Self::SelectAll => tr!("Select everything on the table"),
            Self::Remove => tr!("Remove what is selected"),
            Self::LineUp(line) => line.label(),
            Self::Space(space) => space.label(),
            Self::FitView => tr!("Show the whole house"),
            Self::LookCorner => tr!("From the corner"),
            Self::LookFront => tr!("From the front"),
            Self::LookRight => tr!("From the right"),
            Self::LookBack => tr!("From the back"),
            Self::LookLeft => tr!("From the left"),
            Self::LookDown => tr!("From above"),
            Self::Parallel => tr!("Far as large as near"),
            Self::Flat => tr!("Pieces flat on the table"),
            Self::Standing => tr!("The finished house"),
            Self::Icing => tr!("Icing"),
            Self::Letters => tr!("Letters of joints"),
            Self::Clear => tr!("Walls seen through"),
            Self::Cut => tr!("Cut through the house"),
            Self::Stages => tr!("Stage by stage"),
            Self::ShowOnly => tr!("Only what is selected"),
            Self::Evening => tr!("Evening light"),
            Self::Noticed => tr!("Colour what was noticed"),
            Self::Weak => tr!("Colour what is weak"),
            Self::Alike => tr!("Colour what bakes alike"),
            Self::Narrow => tr!("Colour narrow strips"),
            Self::FitTable => tr!("Show the whole drawing"),
            Self::LayPlan => tr!("Lay the plan on the table"),
            Self::Measure => tr!("Measure"),
            Self::SwitchTheme => tr!("Light or dark"),
            Self::Larger => tr!("Larger text"),
            Self::Smaller => tr!("Smaller text"),
            Self::UsualSize => tr!("Text in its usual size"),
            Self::Keys => tr!("All keys…"),
            Self::KeyCard => tr!("Make a key card…"),
        }
    }

    /// What it does, in one line.
    pub(crate) fn tip(self) -> &'static str {
        match self {
            Self::New => tr!("Start from a small house"),
            Self::Open => tr!("Open a house file"),
            Self::Save => tr!("Write the house to its file"),
            Self::SaveAs => tr!("Write the house to another file"),
            Self::MakePack => tr!("Make the pages to print, at true scale"),
            Self::Stand => tr!("See what will stand and travel, what needs care and what is likely to break"),
            Self::Bake => tr!("See how much dough and icing it takes, what lies on which tray and what to buy"),
            Self::WriteFiles => tr!("Write templates, solids and tables for other programs and for machines that cut"),
            Self::SavePicture => tr!("Write what is seen of the house in space to a file, as a picture"),
            Self::Trays => tr!("Say who you are and what you bake on, to be told what fits on none of it"),
            Self::Settings => tr!("Choose units, paper, colours and the size of text"),
            Self::Quit => tr!("Close the window"),
            Self::Undo => tr!("Take back what you did last"),
            Self::Redo => tr!("Do again what you took back"),
            Self::Resize => tr!("Make the house another size, worked out anew in the same dough"),
            Self::SelectAll => {
                tr!(
                    "Select all that is like what is selected on the drawing table: openings, parts, or what stands beside"
                )
            }
            Self::Remove => tr!("Take away what is selected, and whatever stands by parts that are"),
            Self::LineUp(line) => line.tip(),
            Self::Space(space) => space.tip(),
            Self::FitView => tr!("Step back until the whole house is in the picture"),
            Self::LookCorner => tr!("Stand before a corner of the house, a little above it"),
            Self::LookFront => tr!("Stand before the front"),
            Self::LookRight => tr!("Stand before the right side"),
            Self::LookBack => tr!("Stand behind the house"),
            Self::LookLeft => tr!("Stand before the left side"),
            Self::LookDown => tr!("Look straight down on the roof"),
            Self::Parallel => tr!("Draw what is far away as large as what is near, so that sizes can be compared"),
            Self::Flat => tr!("Lay every piece flat on the table"),
            Self::Standing => tr!("Fold the house up until it stands"),
            Self::Icing => tr!("Show or hide the icing of a standing house"),
            Self::Letters => tr!("Show or hide the letters of the joints"),
            Self::Clear => tr!("Let walls be seen through, without what covers them, or no longer"),
            Self::Cut => {
                tr!("Take away the half of the house towards you, and show what is cut, or the whole house again")
            }
            Self::Stages => {
                tr!("See the house while it is put up, with what is to be done in each stage, or finished again")
            }
            Self::ShowOnly => tr!("Show only the wall, roof or part that is selected, or everything again"),
            Self::Evening => tr!("See the house at dusk with light in its windows, or by day again"),
            Self::Noticed => tr!("Colour pieces by the worst that was noticed of them, without what covers them"),
            Self::Weak => {
                tr!("Colour pieces by how well they will stand, and draw on the table how much is asked of the biscuit")
            }
            Self::Alike => tr!("Colour pieces by what goes into the oven together, by thickness and size"),
            Self::Narrow => tr!("Colour pieces by their narrowest strip beside an opening, and write how wide it is"),
            Self::FitTable => tr!("Show the whole drawing on the table"),
            Self::LayPlan => tr!("Put the plan of the house on the drawing table"),
            Self::Measure => tr!("Measure on the drawing table between any two places, until you choose it again"),
            Self::SwitchTheme => tr!("Change between a light and a dark kitchen"),
            Self::Larger => tr!("Make text and buttons larger"),
            Self::Smaller => tr!("Make text and buttons smaller"),
            Self::UsualSize => tr!("Text and buttons as large as at first"),
            Self::Keys => tr!("See what every key does"),
            Self::KeyCard => tr!("Make a page with all keys, to lay beside the keyboard"),
        }
    }

    /// Keys that do it; the first is the one shown.
    pub(crate) fn shortcuts(self) -> Vec<KeyboardShortcut> {
        let own;
        let keys: &[(Modifiers, Key)] = match self {
            Self::New => &[(CTRL, Key::N)],
            Self::Open => &[(CTRL, Key::O)],
            Self::Save => &[(CTRL, Key::S)],
            Self::SaveAs => &[(CTRL_SHIFT, Key::S)],
            Self::MakePack => &[(CTRL, Key::P)],
            Self::Bake => &[(CTRL, Key::B)],
            Self::Stand | Self::Weak | Self::Alike | Self::Narrow | Self::WriteFiles | Self::Resize | Self::KeyCard => {
                &[]
            }
            Self::SavePicture => &[(CTRL_SHIFT, Key::I)],
            Self::Trays => &[(CTRL, Key::K)],
            Self::Settings => &[(CTRL, Key::Comma)],
            Self::Quit => &[(CTRL, Key::Q)],
            Self::Undo => &[(CTRL, Key::Z)],
            Self::Redo => &[(CTRL_SHIFT, Key::Z), (CTRL, Key::Y)],
            Self::SelectAll => &[(CTRL, Key::A)],
            Self::Remove => &[(Modifiers::NONE, Key::Delete)],
            Self::LineUp(line) => {
                own = [(CTRL_SHIFT, line.key())];
                &own
            }
            Self::Space(space) => {
                own = [(CTRL_SHIFT, space.key())];
                &own
            }
            Self::FitView => &[(CTRL, Key::F)],
            Self::LookCorner => &[(CTRL, Key::Num1)],
            Self::LookFront => &[(CTRL, Key::Num2)],
            Self::LookRight => &[(CTRL, Key::Num3)],
            Self::LookBack => &[(CTRL, Key::Num4)],
            Self::LookLeft => &[(CTRL, Key::Num5)],
            Self::LookDown => &[(CTRL, Key::Num6)],
            Self::Parallel => &[(CTRL, Key::Num7)],
            Self::Flat => &[(CTRL, Key::Num8)],
            Self::Standing => &[(CTRL, Key::Num9)],
            Self::Icing => &[(CTRL, Key::I)],
            Self::Letters => &[(CTRL, Key::J)],
            Self::Clear => &[(CTRL, Key::H)],
            Self::Cut => &[(CTRL, Key::R)],
            Self::Stages => &[(CTRL_SHIFT, Key::P)],
            Self::ShowOnly => &[(CTRL, Key::D)],
            Self::Evening => &[(CTRL, Key::E)],
            Self::Noticed => &[(CTRL, Key::U)],
            Self::FitTable => &[(CTRL, Key::T)],
            Self::LayPlan => &[(CTRL, Key::G)],
            Self::Measure => &[(CTRL, Key::M)],
            Self::SwitchTheme => &[(CTRL, Key::L)],
            // Plus is on the key of the equals sign on many keyboards.
            Self::Larger => &[(CTRL, Key::Plus), (CTRL, Key::Equals)],
            Self::Smaller => &[(CTRL, Key::Minus)],
            Self::UsualSize => &[(CTRL, Key::Num0)],
            Self::Keys => &[(Modifiers::NONE, Key::F1)],
        };
        keys.iter().map(|&(modifiers, key)| KeyboardShortcut::new(modifiers, key)).collect()
    }

    /// Its keys, as they are written on a keyboard; the first is the one shown.
    pub(crate) fn key_names(self, ctx: &egui::Context) -> Vec<String> {
        let signs = [("Comma", ","), ("Plus", "+"), ("Minus", "-"), ("Equals", "=")];
        let written = |name: String| signs.iter().fold(name, |name, (word, sign)| name.replace(word, sign));
        self.shortcuts().iter().map(|keys| written(ctx.format_shortcut(keys))).collect()
    }

    /// What it does and the keys for it.
    pub(crate) fn tooltip(self, ctx: &egui::Context) -> String {
        match self.key_names(ctx).first() {
            Some(keys) => format!("{} ({keys})", self.tip()),
            None => self.tip().to_owned(),
        }
    }

    /// Whether it changes only how things look, so that it can be had while a question is open.
    pub(crate) fn is_look(self) -> bool {
        matches!(self.group(), Group::View | Group::Look)
    }

    /// Whether there must be a house.
    pub(crate) fn needs_house(self) -> bool {
        match self.group() {
            Group::View | Group::Edit | Group::Selected => true,
            Group::House => !matches!(self, Self::New | Self::Open | Self::Trays | Self::Settings | Self::Quit),
            Group::Look => matches!(self, Self::FitTable | Self::LayPlan | Self::Measure),
            Group::Help => false,
        }
    }

    /// The action whose keys were just pressed. Keys are taken away, so that nothing else acts on them. While a
    /// question is open only actions that change the look are listened to; keys that fields need are left to them.
    pub(crate) fn pressed(ctx: &egui::Context, question: bool) -> Option<Self> {
        let typing = ctx.text_edit_focused();
        ctx.input_mut(|input| {
            let heard = Self::ALL.into_iter().filter(|a| !question || a.is_look());
            let heard = heard.filter(|a| !typing || !matches!(a, Self::SelectAll | Self::Remove));
            let mut keys: Vec<_> = heard.flat_map(|a| a.shortcuts().into_iter().map(move |keys| (a, keys))).collect();
            // Those with more keys come first, so that they are not taken for those with fewer.
            keys.sort_by_key(|(_, keys)| !keys.modifiers.shift);
            keys.into_iter().find(|(_, keys)| input.consume_shortcut(keys)).map(|(action, _)| action)
        })
    }
}
