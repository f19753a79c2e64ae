//! The window: parts of the house, sizes, drawing table, view, findings.
//!
//! The only crate that knows egui or three-d. [`Editor`] is the whole window as a value that draws itself into any
//! `egui::Ui`, so that it can be tried without a screen; [`run`] opens it in a window of its own.

mod actions;
mod adapters;
mod app;
mod baking;
mod dialogs;
mod document;
mod errands;
mod fields;
mod history;
mod home;
mod hosts;
mod keep;
mod keeping;
mod keys;
mod layout;
mod marks;
mod notes;
mod openings;
mod panels;
mod perform;
mod person;
mod picturing;
mod reshape;
mod selection;
mod several;
mod solving;
mod standing;
mod start;
mod starting;
mod table;
mod theme;
mod view;
mod window;

pub use app::Editor;
pub use start::Start;
pub use window::run;
