use egui::{Key, KeyboardShortcut, Modifiers};

/// Everything the program can be told to do; menus, shortcuts and tooltips are made from it.
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
    /// Write the house as files for other programs.
    WriteFiles,
    /// Say who bakes, and which trays there are.
    Trays,
    /// Say how the program shall be.
    Settings,
    /// Make the house larger or smaller.
    Resize,
    /// Take the last step back.
    Undo,
    /// Do the last undone step again.
    Redo,
    /// Light or dark.
    SwitchTheme,
    /// Show the whole house in the view.
    FitView,
    /// Show the whole drawing on the table.
    FitTable,
    /// Make text and everything round it larger.
    Larger,
    /// Make it smaller.
    Smaller,
    /// Its usual size again.
    UsualSize,
    /// Close the window.
    Quit,
}

const CTRL: Modifiers = Modifiers::COMMAND;
const CTRL_SHIFT: Modifiers = Modifiers { shift: true, ..Modifiers::COMMAND };

impl Action {
    /// Every action. Shortcuts with more keys come first, so that they are not taken for those with fewer.
    pub(crate) const ALL: [Self; 19] = [
        Self::SaveAs,
        Self::Redo,
        Self::New,
        Self::Open,
        Self::Save,
        Self::MakePack,
        Self::Bake,
        Self::WriteFiles,
        Self::Trays,
        Self::Settings,
        Self::Resize,
        Self::Undo,
        Self::SwitchTheme,
        Self::FitView,
        Self::FitTable,
        Self::Larger,
        Self::Smaller,
        Self::UsualSize,
        Self::Quit,
    ];

    /// What menus call it.
    pub(crate) fn label(self) -> &'static str {
        match self {
            Self::New => "New house…",
            Self::Open => "Open…",
            Self::Save => "Save",
            Self::SaveAs => "Save as…",
            Self::MakePack => "Make the pack…",
            Self::Bake => "The bake…",
            Self::WriteFiles => "Write other files…",
            Self::Trays => "Your kitchen…",
            Self::Settings => "Settings…",
            Self::Resize => "Larger or smaller…",
            Self::Undo => "Undo",
            Self::Redo => "Redo",
            Self::SwitchTheme => "Light or dark",
            Self::FitView => "Show the whole house",
            Self::FitTable => "Show the whole drawing",
            Self::Larger => "Larger text",
            Self::Smaller => "Smaller text",
            Self::UsualSize => "Text in its usual size",
            Self::Quit => "Close",
        }
    }

    /// What it does, in one line.
    pub(crate) fn tip(self) -> &'static str {
        match self {
            Self::New => "Start from a small house",
            Self::Open => "Open a house file",
            Self::Save => "Write the house to its file",
            Self::SaveAs => "Write the house to another file",
            Self::MakePack => "Make the pages to print, at true scale",
            Self::Bake => "See how much dough and icing it takes, what lies on which tray and what to buy",
            Self::WriteFiles => "Write templates, solids and tables for other programs and for machines that cut",
            Self::Trays => "Say who you are and what you bake on, to be told what fits on none of it",
            Self::Settings => "Choose units, paper, colours and the size of text",
            Self::Resize => "Make the house another size, worked out anew in the same dough",
            Self::Undo => "Take back what you did last",
            Self::Redo => "Do again what you took back",
            Self::SwitchTheme => "Change between a light and a dark kitchen",
            Self::FitView => "Step back until the whole house is in the picture",
            Self::FitTable => "Show the whole drawing on the table",
            Self::Larger => "Make text and buttons larger",
            Self::Smaller => "Make text and buttons smaller",
            Self::UsualSize => "Text and buttons as large as at first",
            Self::Quit => "Close the window",
        }
    }

    /// Keys that do it; the first is the one shown.
    pub(crate) fn shortcuts(self) -> Vec<KeyboardShortcut> {
        let keys: &[(Modifiers, Key)] = match self {
            Self::New => &[(CTRL, Key::N)],
            Self::Open => &[(CTRL, Key::O)],
            Self::Save => &[(CTRL, Key::S)],
            Self::SaveAs => &[(CTRL_SHIFT, Key::S)],
            Self::MakePack => &[(CTRL, Key::P)],
            Self::Bake => &[(CTRL, Key::B)],
            Self::WriteFiles | Self::Trays | Self::Resize => &[],
            Self::Settings => &[(CTRL, Key::Comma)],
            Self::Undo => &[(CTRL, Key::Z)],
            Self::Redo => &[(CTRL_SHIFT, Key::Z), (CTRL, Key::Y)],
            Self::SwitchTheme => &[(CTRL, Key::L)],
            Self::FitView => &[(CTRL, Key::F)],
            Self::FitTable => &[(CTRL, Key::T)],
            // Plus is on the key of the equals sign on many keyboards.
            Self::Larger => &[(CTRL, Key::Plus), (CTRL, Key::Equals)],
            Self::Smaller => &[(CTRL, Key::Minus)],
            Self::UsualSize => &[(CTRL, Key::Num0)],
            Self::Quit => &[(CTRL, Key::Q)],
        };
        keys.iter().map(|&(modifiers, key)| KeyboardShortcut::new(modifiers, key)).collect()
    }

    /// What it does and the keys for it.
    pub(crate) fn tooltip(self, ctx: &egui::Context) -> String {
        match self.shortcuts().first() {
            Some(keys) => format!("{} ({})", self.tip(), ctx.format_shortcut(keys)),
            None => self.tip().to_owned(),
        }
    }

    /// Whether it changes only how things look, so that it can be had while a question is open.
    pub(crate) fn is_look(self) -> bool {
        use Action::{FitTable, FitView, Larger, Smaller, SwitchTheme, UsualSize};
        matches!(self, SwitchTheme | FitView | FitTable | Larger | Smaller | UsualSize)
    }

    /// The action whose keys were just pressed. Keys are taken away, so that nothing else acts on them. While a
    /// question is open only actions that change the look are listened to.
    pub(crate) fn pressed(ctx: &egui::Context, question: bool) -> Option<Self> {
        ctx.input_mut(|input| {
            let mut heard = Self::ALL.into_iter().filter(|a| !question || a.is_look());
            heard.find(|a| a.shortcuts().iter().any(|keys| input.consume_shortcut(keys)))
        })
    }
}
