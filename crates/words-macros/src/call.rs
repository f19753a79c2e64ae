//! One call of the macro, read and written out.

use crate::slots::{Slot, slots};
use proc_macro2::{Span, TokenStream};
use quote::quote;
use syn::parse::{Parse, ParseStream};
use syn::{Expr, Ident, LitStr, Token};

/// `"context" => "one" | "many" % number, arguments`; all but one text may be left out.
pub(crate) struct Call {
    context: Option<LitStr>,
    text: LitStr,
    many: Option<(LitStr, Expr)>,
    arguments: Vec<(Option<Ident>, Expr)>,
}

impl Parse for Call {
    fn parse(input: ParseStream<'_>) -> syn::Result<Self> {
        let mut text: LitStr = input.parse()?;
        let mut context = None;
        if input.parse::<Option<Token![=>]>>()?.is_some() {
            context = Some(std::mem::replace(&mut text, input.parse()?));
        }
        let mut many = None;
        if input.parse::<Option<Token![|]>>()?.is_some() {
            let form = input.parse()?;
            input.parse::<Token![%]>()?;
            many = Some((form, input.parse()?));
        }
        let mut arguments = Vec::new();
        while input.parse::<Option<Token![,]>>()?.is_some() && !input.is_empty() {
            let named = input.peek(Ident) && input.peek2(Token![=]) && !input.peek2(Token![==]);
            let name = if named { Some(input.parse()?) } else { None };
            if named {
                input.parse::<Token![=]>()?;
            }
            arguments.push((name, input.parse()?));
        }
        if input.is_empty() {
            Ok(Self { context, text, many, arguments })
        } else {
            Err(input.error("a comma, or the end"))
        }
    }
}

impl Call {
    /// The call as code.
    pub(crate) fn written(&self) -> syn::Result<TokenStream> {
        let (text, context) = (&self.text, self.context.as_ref().map(LitStr::value).unwrap_or_default());
        let key = LitStr::new(&key(&context, &text.value()), text.span());
        let slots = slots(text)?;
        // Names of the macro's own, which hide none of the caller's; only `n` is there for arguments to use.
        let [found, count] = ["found", "count"].map(|name| Ident::new(name, Span::mixed_site()));
        let Some((many, number)) = &self.many else {
            if slots.is_empty() && self.arguments.is_empty() {
                return Ok(quote!(::gable_words::look_up(#key).unwrap_or(#text)));
            }
            let (english, filled) = (self.english(text, &slots), self.filled(&slots)?);
            return Ok(quote!(match ::gable_words::look_up(#key) {
                ::std::option::Option::None => #english,
                ::std::option::Option::Some(#found) => ::gable_words::fill(#found, &[#(#filled),*]),
            }));
        };
        let mut all = self::slots(many)?;
        let (one_english, many_english) = (self.english(text, &slots), self.english(many, &all));
        all.extend(
            slots.into_iter().filter(|slot| !self::slots(many).is_ok_and(|m| m.iter().any(|s| s.name == slot.name))),
        );
        let filled = self.filled(&all)?;
        let n = Ident::new("n", Span::call_site());
        Ok(quote!({
            let #n = #number;
            let #count = ::gable_words::Count::count(&#n);
            match ::gable_words::look_up_number(#key, #count) {
                ::std::option::Option::None if #count == 1 => #one_english,
                ::std::option::Option::None => #many_english,
                ::std::option::Option::Some(#found) => ::gable_words::fill(#found, &[#(#filled),*]),
            }
        }))
    }

    /// The English text with what stands in it, checked by the compiler.
    fn english(&self, text: &LitStr, slots: &[Slot]) -> TokenStream {
        let used = self.arguments.iter().enumerate().filter(|(k, (name, _))| {
            let own = name.as_ref().map_or_else(|| k.to_string(), Ident::to_string);
            self.many.is_none() || name.is_none() || slots.iter().any(|s| s.name == own)
        });
        let arguments = used.map(|(_, (name, value))| match name {
            Some(name) => quote!(#name = #value),
            None => quote!(#value),
        });
        quote!(::std::format!(#text, #(#arguments),*))
    }

    /// What stands in the text, by name, already printed.
    fn filled(&self, slots: &[Slot]) -> syn::Result<Vec<TokenStream>> {
        let printed = slots.iter().map(|slot| {
            let (name, form) = (&slot.name, LitStr::new(&format!("{{{}}}", slot.form), self.text.span()));
            let value = match self.argument(name) {
                Some(value) => quote!(#value),
                None if name.parse::<usize>().is_ok() => {
                    return Err(syn::Error::new(self.text.span(), format!("there is no argument for {{{name}}}")));
                }
                None => {
                    let name = Ident::new(name, self.text.span());
                    quote!(#name)
                }
            };
            Ok(quote!((#name, ::std::format!(#form, #value).as_str())))
        });
        printed.collect()
    }

    fn argument(&self, name: &str) -> Option<&Expr> {
        let by_name = self.arguments.iter().find(|(own, _)| own.as_ref().is_some_and(|own| own == name));
        let by_place = || name.parse::<usize>().ok().and_then(|k| self.arguments.get(k));
        by_name.or_else(by_place).map(|(_, value)| value)
    }
}

/// What a text is found by: as in compiled catalogues, the context comes before it, with a mark between.
fn key(context: &str, text: &str) -> String {
    if context.is_empty() { text.to_owned() } else { format!("{context}\u{4}{text}") }
}
