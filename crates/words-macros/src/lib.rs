//! The macro `tr!`, which marks text for people so that it can be said in another language.

mod call;
mod slots;

use proc_macro::TokenStream;

/// Text in the language that is spoken; the English text is the key to it.
///
/// `tr!("Save")` is a `&'static str`. Text with placeholders is a `String`, with the arguments and formats of `format!`:
/// `tr!("Corner {}, {word}", k + 1)`. Text that goes by a number has two forms, and the number is called `n`:
/// `tr!("{n} piece" | "{n} pieces" % count)`. One English word that means two things gets a context:
/// `tr!("of a roof" => "flat")`.
#[proc_macro]
pub fn tr(input: TokenStream) -> TokenStream {
    syn::parse::<call::Call>(input).and_then(|call| call.written()).unwrap_or_else(|e| e.into_compile_error()).into()
}
