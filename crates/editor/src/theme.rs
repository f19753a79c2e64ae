//! Colours and spacing: a baker's kitchen table by day and by lamp light. Colours are used by name only.

use egui::{
    Color32, CornerRadius, FontData, FontDefinitions, FontFamily, FontId, Margin, RichText, Shadow, Stroke, TextStyle,
    Theme, Vec2, Visuals, style::ScrollStyle,
};
use gable_mesh::Token;
use std::sync::Arc;

/// The named colours of one theme.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Palette {
    /// Behind everything: the table top.
    pub(crate) table: Color32,
    /// Panels that lie on it.
    pub(crate) panel: Color32,
    /// Fields to type in and the drawing paper.
    pub(crate) paper: Color32,
    /// Buttons.
    pub(crate) button: Color32,
    /// Buttons under the pointer.
    pub(crate) button_hover: Color32,
    /// Text and lines.
    pub(crate) ink: Color32,
    /// Text of less weight.
    pub(crate) faint_ink: Color32,
    /// Edges of panels, and lines between what belongs together: decoration.
    pub(crate) edge: Color32,
    /// Edges of fields, boxes and buttons, by which they are told from what they lie on.
    pub(crate) rim: Color32,
    /// What can be dragged or is chosen.
    pub(crate) accent: Color32,
    /// Behind what is chosen.
    pub(crate) chosen: Color32,
    /// Text on what is chosen.
    pub(crate) on_chosen: Color32,
    /// Something cannot be built.
    pub(crate) blocking: Color32,
    /// Something needs care.
    pub(crate) caution: Color32,
    /// Something to know.
    pub(crate) note: Color32,
    /// One kind of piece beside others, in the view; each is also told by its number.
    pub(crate) kinds: [Color32; 6],
    /// Dough in drawings.
    pub(crate) dough: Color32,
    /// Sky behind the house in the view.
    pub(crate) sky: Color32,
    /// The same in the evening.
    pub(crate) dusk: Color32,
    /// What is selected, in drawings and in the view.
    pub(crate) selected: Color32,
    /// The theme that colours of the house follow.
    pub(crate) theme: gable_mesh::Theme,
}

/// The colour of what is selected is that of pictures of the house.
const fn selected(theme: gable_mesh::Theme) -> Color32 {
    let colour = Token::Selected.srgb(theme);
    Color32::from_rgb(colour.r, colour.g, colour.b)
}

const fn rgb(hex: u32) -> Color32 {
    Color32::from_rgb((hex >> 16) as u8, (hex >> 8) as u8, hex as u8)
}

/// By day.
pub(crate) const LIGHT: Palette = Palette {
    table: rgb(0xEFE3D0),
    panel: rgb(0xFAF4E8),
    paper: rgb(0xFFFDF8),
    button: rgb(0xF0E1C6),
    button_hover: rgb(0xE9D3AB),
    ink: rgb(0x3A2618),
    faint_ink: rgb(0x6E5642),
    edge: rgb(0xD3BD9C),
    rim: rgb(0x8F7653),
    accent: rgb(0x9A4A14),
    chosen: rgb(0xF3CF9A),
    on_chosen: rgb(0x3A2110),
    blocking: rgb(0xA3211C),
    caution: rgb(0x805000),
    note: rgb(0x2A5A82),
    kinds: [rgb(0x2A5A82), rgb(0x8C5200), rgb(0x356B3C), rgb(0x86407A), rgb(0x12696B), rgb(0x93362F)],
    dough: rgb(0xE3BC86),
    sky: rgb(0xC3D2DC),
    dusk: rgb(0x27304A),
    selected: selected(gable_mesh::Theme::Light),
    theme: gable_mesh::Theme::Light,
};

/// By lamp light.
pub(crate) const DARK: Palette = Palette {
    table: rgb(0x1E1713),
    panel: rgb(0x2A211B),
    paper: rgb(0x211A15),
    button: rgb(0x42342A),
    button_hover: rgb(0x54432F),
    ink: rgb(0xF6EADA),
    faint_ink: rgb(0xCBB59C),
    edge: rgb(0x574638),
    rim: rgb(0x937B64),
    accent: rgb(0xF2B066),
    chosen: rgb(0x6B431C),
    on_chosen: rgb(0xFFF1DD),
    blocking: rgb(0xFF9C8C),
    caution: rgb(0xF4C463),
    note: rgb(0x9CC8F0),
    kinds: [rgb(0x9CC8F0), rgb(0xF2BE6A), rgb(0x9FD49A), rgb(0xE3A9DA), rgb(0x7FD6D2), rgb(0xFF9C8C)],
    dough: rgb(0x7A5630),
    sky: rgb(0x262B36),
    dusk: rgb(0x141A2A),
    selected: selected(gable_mesh::Theme::Dark),
    theme: gable_mesh::Theme::Dark,
};

impl Palette {
    /// The colours of a theme of pictures.
    pub(crate) fn of_theme(theme: gable_mesh::Theme) -> Self {
        match theme {
            gable_mesh::Theme::Light => LIGHT,
            gable_mesh::Theme::Dark => DARK,
        }
    }

    /// The colours in use.
    pub(crate) fn of(ctx: &egui::Context) -> Self {
        match ctx.theme() {
            Theme::Light => LIGHT,
            Theme::Dark => DARK,
        }
    }
}

/// Words in bold.
pub(crate) fn bold(words: impl Into<String>) -> RichText {
    RichText::new(words).family(FontFamily::Name(BOLD.into()))
}

/// Name of the bold face.
pub(crate) const BOLD: &str = "bold";

/// The face of the printed pages, with those of the toolkit for signs that it has not.
fn faces() -> FontDefinitions {
    let mut fonts = FontDefinitions::default();
    let mut family = fonts.families.get(&FontFamily::Proportional).cloned().unwrap_or_default();
    for (name, face) in [("page", gable_export::REGULAR), (BOLD, gable_export::BOLD)] {
        fonts.font_data.insert(name.to_owned(), Arc::new(FontData::from_static(face)));
    }
    let with = |first: &str, rest: &[String]| std::iter::once(first.to_owned()).chain(rest.iter().cloned()).collect();
    fonts.families.insert(FontFamily::Name(BOLD.into()), with(BOLD, &family));
    family = with("page", &family);
    fonts.families.insert(FontFamily::Proportional, family);
    fonts
}

/// Least width and height of what is pressed or dragged, in points (WCAG 2.2, 2.5.8).
pub(crate) const TARGET: f32 = 24.0;

/// Sets faces of type, colours, text sizes and spacing of both themes.
pub(crate) fn install(ctx: &egui::Context) {
    ctx.set_visuals_of(Theme::Light, visuals(Visuals::light(), &LIGHT));
    ctx.set_visuals_of(Theme::Dark, visuals(Visuals::dark(), &DARK));
    ctx.set_fonts(faces());
    ctx.options_mut(|options| {
        options.fallback_theme = Theme::Light;
        // There are actions for it.
        options.zoom_with_keyboard = false;
    });
    ctx.all_styles_mut(|style| {
        let sizes = [(TextStyle::Small, 12.5), (TextStyle::Body, 14.5), (TextStyle::Button, 14.5)];
        for (text, size) in sizes {
            style.text_styles.insert(text, FontId::proportional(size));
        }
        style.text_styles.insert(TextStyle::Heading, FontId::new(17.0, FontFamily::Name(BOLD.into())));
        style.spacing.item_spacing = Vec2::new(8.0, 7.0);
        style.spacing.button_padding = Vec2::new(10.0, 4.0);
        style.spacing.interact_size = Vec2::new(40.0, 28.0);
        style.spacing.menu_margin = Margin::same(8);
        style.spacing.window_margin = Margin::same(16);
        style.spacing.slider_width = 160.0;
        // Edges that can be moved are as wide as any other target; half of it lies in the margin on either side.
        style.interaction.resize_grab_radius_side = TARGET / 2.0;
        style.spacing.icon_width = 18.0;
        // Bars beside what they move, not over it, and wide enough to grasp.
        style.spacing.scroll = ScrollStyle::solid();
        style.spacing.scroll.bar_width = 9.0;
    });
}

fn visuals(mut v: Visuals, p: &Palette) -> Visuals {
    let round = CornerRadius::same(7);
    v.panel_fill = p.panel;
    v.window_fill = p.panel;
    v.extreme_bg_color = p.paper;
    v.text_edit_bg_color = Some(p.paper);
    v.faint_bg_color = p.table;
    v.weak_text_color = Some(p.faint_ink);
    v.hyperlink_color = p.accent;
    v.error_fg_color = p.blocking;
    v.warn_fg_color = p.caution;
    v.selection.bg_fill = p.chosen;
    v.selection.stroke = Stroke::new(1.5, p.on_chosen);
    v.window_stroke = Stroke::new(1.0, p.edge);
    v.window_corner_radius = CornerRadius::same(12);
    v.menu_corner_radius = CornerRadius::same(9);
    let soft = Shadow { offset: [0, 4], blur: 16, spread: 0, color: Color32::from_black_alpha(50) };
    v.window_shadow = soft;
    v.popup_shadow = soft;
    v.slider_trailing_fill = true;
    v.disabled_alpha = 0.6;
    let looks = [
        (&mut v.widgets.noninteractive, p.panel, p.edge, p.ink, 1.0),
        (&mut v.widgets.inactive, p.button, p.rim, p.ink, 1.0),
        (&mut v.widgets.hovered, p.button_hover, p.accent, p.ink, 1.5),
        (&mut v.widgets.active, p.button_hover, p.accent, p.ink, 2.0),
        (&mut v.widgets.open, p.button, p.accent, p.ink, 1.0),
    ];
    for (look, fill, edge, ink, width) in looks {
        look.bg_fill = fill;
        look.weak_bg_fill = fill;
        look.bg_stroke = Stroke::new(width, edge);
        look.fg_stroke = Stroke::new(width.max(1.2), ink);
        look.corner_radius = round;
        look.expansion = 0.0;
    }
    v
}

#[cfg(test)]
mod tests {
    use super::*;

    /// WCAG 2.2, relative luminance of sRGB.
    fn luminance(c: Color32) -> f64 {
        let linear = |v: u8| {
            let v = f64::from(v) / 255.0;
            if v <= 0.04045 { v / 12.92 } else { ((v + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * linear(c.r()) + 0.7152 * linear(c.g()) + 0.0722 * linear(c.b())
    }

    fn contrast(a: Color32, b: Color32) -> f64 {
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    #[test]
    fn contrast_is_computed_as_the_guidelines_do() {
        // WCAG 2.2: black on white is 21 to 1; Okabe and Ito's blue on white 5.19 to 1.
        assert!((contrast(Color32::BLACK, Color32::WHITE) - 21.0).abs() < 1e-9);
        assert!((contrast(rgb(0x0072B2), Color32::WHITE) - 5.19).abs() < 0.01);
    }

    #[test]
    fn text_can_be_read_on_everything_it_stands_on() {
        for p in [LIGHT, DARK] {
            for ground in [p.table, p.panel, p.paper, p.button, p.button_hover, p.sky] {
                assert!(contrast(p.ink, ground) >= 4.5, "ink on {ground:?}");
            }
            for text in [p.faint_ink, p.accent, p.blocking, p.caution, p.note] {
                for ground in [p.panel, p.paper, p.table] {
                    assert!(contrast(text, ground) >= 4.5, "{text:?} on {ground:?}: {}", contrast(text, ground));
                }
            }
            // Marks and edges by which a control is known (WCAG 2.2, 1.4.11), and the ring of the keyboard (2.4.11).
            for mark in [p.accent, p.rim, p.selected, p.blocking, p.caution, p.note].into_iter().chain(p.kinds) {
                for ground in [p.panel, p.paper, p.table] {
                    assert!(contrast(mark, ground) >= 3.0, "{mark:?} on {ground:?}: {}", contrast(mark, ground));
                }
            }
            for ground in [p.button, p.button_hover, p.chosen, p.dough, p.sky] {
                assert!(contrast(p.accent, ground) >= 3.0, "accent on {ground:?}: {}", contrast(p.accent, ground));
            }
            assert!(contrast(p.on_chosen, p.chosen) >= 4.5);
            assert!(contrast(p.ink, p.dough) >= 4.5);
        }
    }
}
