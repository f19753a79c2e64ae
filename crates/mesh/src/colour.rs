/// A colour in sRGB, 8 bits a channel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Srgb {
    /// Red.
    pub r: u8,
    /// Green.
    pub g: u8,
    /// Blue.
    pub b: u8,
}

impl Srgb {
    const fn hex_of(rgb: u32) -> Self {
        Self { r: (rgb >> 16) as u8, g: (rgb >> 8) as u8, b: rgb as u8 }
    }

    /// As written on the web, such as `#c98b4a`.
    pub fn hex(self) -> String {
        format!("#{:02x}{:02x}{:02x}", self.r, self.g, self.b)
    }

    /// The colour between this one (share 0) and another (share 1).
    pub fn mixed(self, other: Self, share: f64) -> Self {
        let share = share.clamp(0.0, 1.0);
        let mix = |a: u8, b: u8| (f64::from(a) + (f64::from(b) - f64::from(a)) * share).round() as u8;
        Self { r: mix(self.r, other.r), g: mix(self.g, other.g), b: mix(self.b, other.b) }
    }
}

/// Whether things are drawn on a light or a dark ground.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Theme {
    /// Dark on light, as on paper.
    #[default]
    Light,
    /// Light on dark.
    Dark,
}

/// What a colour is for. Nothing in the program names a colour of the house in any other way.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Token {
    /// Biscuit of a wall in full light.
    BiscuitWall,
    /// Biscuit of a slope or lid in full light.
    BiscuitRoof,
    /// Biscuit of a floor in full light.
    BiscuitFloor,
    /// Biscuit of a parapet in full light.
    BiscuitParapet,
    /// Any biscuit in full shadow.
    BiscuitShadow,
    /// Lines pressed into biscuit.
    Pressed,
    /// Icing in gaps and wedges.
    Icing,
    /// Sheet gelatine.
    PaneLeaf,
    /// Boiled sugar.
    PanePoured,
    /// Molten sweets.
    PaneCrushed,
    /// The base board.
    Board,
    /// What is behind the house.
    Backdrop,
    /// Lines of drawings, and text in pictures.
    Line,
    /// A pale tint that stays under lines and text.
    Tint,
    /// What is selected.
    Selected,
    /// What the pointer is over.
    Hovered,
    /// What a blocking finding is about.
    Faulty,
}

impl Token {
    /// Every token.
    pub const ALL: [Self; 17] = [
        Self::BiscuitWall,
        Self::BiscuitRoof,
        Self::BiscuitFloor,
        Self::BiscuitParapet,
        Self::BiscuitShadow,
        Self::Pressed,
        Self::Icing,
        Self::PaneLeaf,
        Self::PanePoured,
        Self::PaneCrushed,
        Self::Board,
        Self::Backdrop,
        Self::Line,
        Self::Tint,
        Self::Selected,
        Self::Hovered,
        Self::Faulty,
    ];

    /// The colour for a theme.
    pub const fn srgb(self, theme: Theme) -> Srgb {
        let (light, dark) = self.pair();
        Srgb::hex_of(match theme {
            Theme::Light => light,
            Theme::Dark => dark,
        })
    }

    /// The colour of a piece in full light.
    pub fn of_role(role: &gable_shell::Role) -> Self {
        use gable_shell::Role;
        match role {
            Role::Floor | Role::Layer(_) => Self::BiscuitFloor,
            Role::Wall(_) | Role::Post(..) => Self::BiscuitWall,
            Role::Slope(..) | Role::Lid => Self::BiscuitRoof,
            Role::Parapet(_) => Self::BiscuitParapet,
        }
    }

    /// The colour of a pane in full light.
    pub fn of_glass(glass: gable_shell::Glass) -> Self {
        use gable_shell::Glass;
        match glass {
            Glass::Leaf => Self::PaneLeaf,
            Glass::Poured => Self::PanePoured,
            Glass::Crushed => Self::PaneCrushed,
        }
    }

    /// On a light and on a dark ground. Biscuit stays biscuit; what marks something has 3:1 against the ground.
    const fn pair(self) -> (u32, u32) {
        match self {
            Self::BiscuitWall => (0xe3b078, 0xd9a56c),
            Self::BiscuitRoof => (0xc98a52, 0xbe7f48),
            Self::BiscuitFloor => (0xd6a068, 0xcb945c),
            Self::BiscuitParapet => (0xdaa56c, 0xcf9960),
            Self::BiscuitShadow => (0x7d4a26, 0x5e371c),
            Self::Pressed => (0x6f4122, 0x4f2d16),
            Self::Icing => (0xfffdf8, 0xf4f1ea),
            Self::PaneLeaf => (0xfbe7a8, 0xf2dc98),
            Self::PanePoured => (0xf2b84b, 0xe8ab3c),
            Self::PaneCrushed => (0xe2695c, 0xd65c50),
            Self::Board => (0xcfd6d3, 0x4a5452),
            Self::Backdrop => (0xf4f2ee, 0x1f2226),
            Self::Line => (0x33241a, 0xe9dfd3),
            Self::Tint => (0xece7df, 0x2e3237),
            Self::Selected => (0x0072b2, 0x56b4e9),
            Self::Hovered => (0x009e73, 0x2fc497),
            Self::Faulty => (0xb84a00, 0xf08a3c),
        }
    }
}

/// Biscuit under a share of light between full shadow (0) and full light (1).
pub fn lit_biscuit(full: Token, light: f64, theme: Theme) -> Srgb {
    Token::BiscuitShadow.srgb(theme).mixed(full.srgb(theme), light)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance and contrast after WCAG 2.2.
    fn contrast(a: Srgb, b: Srgb) -> f64 {
        let channel = |c: u8| {
            let c = f64::from(c) / 255.0;
            if c <= 0.04045 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
        };
        let luminance = |c: Srgb| 0.2126 * channel(c.r) + 0.7152 * channel(c.g) + 0.0722 * channel(c.b);
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    /// WCAG 2.2, 1.4.11: graphics that carry meaning stand out 3:1 from what they lie on.
    #[test]
    fn marks_stand_out_from_the_ground() {
        for theme in [Theme::Light, Theme::Dark] {
            for token in [Token::Line, Token::Selected, Token::Hovered, Token::Faulty] {
                let ratio = contrast(token.srgb(theme), Token::Backdrop.srgb(theme));
                assert!(ratio >= 3.0, "{token:?} {theme:?} {ratio}");
            }
        }
    }

    #[test]
    fn hex_is_as_on_the_web() {
        assert_eq!(Token::Selected.srgb(Theme::Light).hex(), "#0072b2");
        assert_eq!(lit_biscuit(Token::BiscuitWall, 7.0, Theme::Light), Token::BiscuitWall.srgb(Theme::Light));
    }
}
