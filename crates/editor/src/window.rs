use crate::app::Editor;
use crate::start::Start;
use eframe::{NativeOptions, Renderer};
use egui::{IconData, ViewportBuilder};
use gable_words::tr;

/// The picture of the program in task bars, the same as in menus of the desktop.
const ICON: &str = include_str!("../../../assets/package/gablewright.svg");

/// Opens the window and stays until it is closed.
///
/// # Errors
/// When there is no display or no graphics driver to draw with. Of a file that cannot be read the window tells, beside what there
/// is to choose from: whoever clicked on it sees no terminal.
pub fn run(start: Start) -> Result<(), String> {
    let (document, trouble) = start.document().map_or_else(|words| (None, Some(words)), |document| (document, None));
    let options = NativeOptions {
        viewport: ViewportBuilder::default()
            .with_app_id("gablewright")
            .with_title("Gablewright")
            .with_icon(icon())
            .with_inner_size([1360.0, 860.0])
            .with_min_inner_size([720.0, 520.0]),
        renderer: Renderer::Glow,
        depth_buffer: 24,
        multisampling: 4,
        ..NativeOptions::default()
    };
    let create = move |context: &eframe::CreationContext<'_>| {
        let editor = Editor::in_window(&context.egui_ctx, document, context.gl.is_some()).telling(trouble);
        Ok::<Box<dyn eframe::App>, _>(Box::new(editor))
    };
    eframe::run_native("Gablewright", options, Box::new(create))
        .map_err(|error| tr!("the window could not be opened: {error}"))
}

/// Without a picture the desktop shows its own; no reason to stay closed.
fn icon() -> IconData {
    gable_export::pixels_of_svg(ICON, 128)
        .map(|drawn| IconData { rgba: drawn.rgba, width: drawn.width, height: drawn.height })
        .unwrap_or_default()
}
