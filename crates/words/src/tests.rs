use crate::plural::Rule;
use crate::{Catalogue, Tongue, say, spoken, suits, tr};
use proptest::prelude::*;

const HEAD: &str = "msgid \"\"\nmsgstr \"\"\n\"Language: nn\\n\"\n\"X-Language-Name: Nynorsk\\n\"\n\"Content-Type: text/plain; charset=UTF-8\\n\"\n\"Plural-Forms: nplurals=2; plural=(n != 1);\\n\"\n\n";

fn spoken_from(body: &str) -> Tongue {
    let catalogue = Catalogue::read("x", &format!("{HEAD}{body}")).unwrap();
    Tongue::of(Box::leak(Box::new(catalogue)))
}

fn house(n: usize) -> String {
    tr!("one house of {owner}" | "{n} houses of {owner}" % n, owner = "Ida")
}

#[test]
fn english_is_the_key_and_what_is_said_without_a_catalogue() {
    let word = "up";
    assert_eq!(tr!("Save"), "Save");
    assert_eq!(tr!("Corner {}, {word}: {:.1}", 1 + 1, 2.55), "Corner 2, up: 2.5");
    assert_eq!((house(1), house(2)), ("one house of Ida".to_owned(), "2 houses of Ida".to_owned()));
    assert_eq!(tr!("roof" => "flat"), "flat");
}

#[test]
fn text_comes_from_the_catalogue_in_its_own_order_and_number() {
    let nn = spoken_from(
        "msgid \"Save\"\nmsgstr \"Lagre\"\n\nmsgctxt \"roof\"\nmsgid \"flat\"\nmsgstr \"flatt\"\n\n\
         msgid \"Corner {}, {word}: {:.1}\"\nmsgstr \"{1} {word} {{x}} {0}\"\n\n\
         msgid \"one house of {owner}\"\nmsgid_plural \"{n} houses of {owner}\"\n\
         msgstr[0] \"eit hus av {owner}\"\nmsgstr[1] \"{n} hus av {owner}\"\n\n\
         #, fuzzy\nmsgid \"Open\"\nmsgstr \"Kanskje\"\n\nmsgid \"Close\"\nmsgstr \"\"\n",
    );
    let word = "opp";
    nn.while_speaking(|| {
        assert_eq!(tr!("Save"), "Lagre");
        assert_eq!(say(mark!("Save")), "Lagre");
        assert_eq!((tr!("roof" => "flat"), tr!("flat")), ("flatt", "flat"));
        assert_eq!(tr!("Corner {}, {word}: {:.1}", 2, 2.55), "2.5 opp {x} 2");
        assert_eq!((house(1), house(2)), ("eit hus av Ida".to_owned(), "2 hus av Ida".to_owned()));
        assert_eq!((tr!("Open"), tr!("Close")), ("Open", "Close"), "doubtful and missing text stays English");
        assert_eq!(std::thread::spawn(|| tr!("Save")).join().unwrap(), "Save", "a thread speaks English until told");
    });
    assert_eq!((tr!("Save"), spoken().code(), nn.code()), ("Save", "en", "nn"));
    assert_eq!(nn.catalogue().unwrap().name(), "Nynorsk");
}

#[test]
fn a_text_with_other_placeholders_stays_english_and_is_told() {
    for wrong in ["{nr}", "Side", "Side {page} {page2}"] {
        let nn = spoken_from(&format!("msgid \"Page {{page}}\"\nmsgstr \"{wrong}\"\n"));
        let page = 3;
        assert_eq!(nn.while_speaking(|| tr!("Page {page}")), "Page 3");
        assert!(nn.catalogue().unwrap().faults()[0].contains("stays English"));
    }
}

#[test]
fn names_of_the_caller_are_the_callers() {
    let nn = spoken_from(
        "msgid \"'{}' is no number\"\nmsgstr \"'{}' er ikkje eit tal\"\n\n\
         msgid \"one {}, {count}\"\nmsgid_plural \"{n} {}, {count}\"\nmsgstr[0] \"ein {} {count}\"\nmsgstr[1] \"{n} {} {count}\"\n",
    );
    let (text, found, count) = ("4x", "hus", "tre");
    let both = || (tr!("'{}' is no number", text.trim()), tr!("one {}, {count}" | "{n} {}, {count}" % 5, found.trim()));
    assert_eq!(both(), ("'4x' is no number".to_owned(), "5 hus, tre".to_owned()));
    assert_eq!(nn.while_speaking(both), ("'4x' er ikkje eit tal".to_owned(), "5 hus tre".to_owned()));
}

#[test]
fn a_number_is_never_lost() {
    let faults = |body: &str| spoken_from(body).catalogue().unwrap().faults().len();
    assert_eq!(faults("msgid \"Putting it up ({n})\"\nmsgstr \"Bygg\"\n"), 1);
    let plural = "msgid \"one piece\"\nmsgid_plural \"{n} pieces\"\n";
    assert_eq!(faults(&format!("{plural}msgstr[0] \"ein bit\"\nmsgstr[1] \"bitar\"\n")), 1);
    assert_eq!(faults(&format!("{plural}msgstr[0] \"ein bit\"\nmsgstr[1] \"{{n}} bitar\"\n")), 0);
}

#[test]
fn a_mark_of_the_byte_order_is_passed_over_and_endless_forms_are_refused() {
    let text = format!("{HEAD}msgid \"Save\"\nmsgstr \"Lagre\"\n");
    assert_eq!(Catalogue::read("x", &format!("\u{feff}{text}")).unwrap().text("Save"), Some("Lagre"));
    for index in ["21", "9999999999", "99999999999999999999999999"] {
        let endless = format!("{HEAD}msgid \"a\"\nmsgid_plural \"b\"\nmsgstr[{index}] \"c\"\n");
        assert!(Catalogue::read("x", &endless).is_err(), "{index}");
    }
    assert!(Rule::read(&format!("nplurals=2; plural=n{}", "+n".repeat(100_000))).is_none());
}

/// Rules and examples of the GNU gettext manual, 'Additional functions for plural forms', from memory; forms of numbers by
/// the grammar of each language.
#[test]
fn formulas_for_numbers_are_those_of_the_manual() {
    let polish = "nplurals=3; plural=n==1 ? 0 : n%10>=2 && n%10<=4 && (n%100<10 || n%100>=20) ? 1 : 2;";
    let slovenian = "nplurals=4; plural=n%100==1 ? 0 : n%100==2 ? 1 : n%100==3 || n%100==4 ? 2 : 3;";
    let table: [(&str, &[(u64, u64)]); 5] = [
        ("nplurals=1; plural=0;", &[(0, 0), (1, 0), (7, 0)]),
        ("nplurals=2; plural=n != 1;", &[(0, 1), (1, 0), (2, 1)]),
        ("nplurals=2; plural=n>1", &[(0, 0), (1, 0), (2, 1)]),
        (polish, &[(1, 0), (2, 1), (4, 1), (5, 2), (12, 2), (22, 1), (112, 2), (0, 2)]),
        (slovenian, &[(101, 0), (2, 1), (103, 2), (5, 3), (0, 3)]),
    ];
    for (header, numbers) in table {
        let (_, rule) = Rule::read(header).unwrap_or_else(|| panic!("{header}"));
        for (n, form) in numbers {
            assert_eq!(rule.form(*n), *form, "{header} for {n}");
        }
    }
    for none in ["", "nplurals=2", "nplurals=2; plural=n!", "nplurals=2; plural=m", "nplurals=2; plural=(n"] {
        assert!(Rule::read(none).is_none(), "{none}");
    }
    assert_eq!(Rule::read("nplurals=2; plural=n%0").unwrap().1.form(5), 0, "nothing is divided by nothing");
}

#[test]
fn the_language_of_a_country_comes_first() {
    let read =
        |code: &str| Catalogue::read(code, "msgid \"\"\nmsgstr \"\"\n\"Content-Type: text/plain\\n\"\n").unwrap();
    let all = [read("pt"), read("pt_BR"), read("de"), read("en_GB")];
    let code = |wanted: &str| suits(wanted, &all).map(Catalogue::code);
    assert_eq!(
        [code("pt-BR"), code("pt_BR.UTF-8"), code("pt-PT"), code("de_AT.UTF-8"), code("fi")],
        [Some("pt_BR"), Some("pt_BR"), Some("pt"), Some("de"), None]
    );
    assert_eq!([code("en"), code("en-US"), code("en-GB")], [None, None, Some("en_GB")], "English is there already");
}

proptest! {
    /// Whatever is in a person's file, the program goes on.
    #[test]
    fn no_file_breaks_the_reader(cut in 0usize..400, with in "\\PC{0,6}|msgid|\"|\\n|msgstr\\[9\\] ") {
        let whole = format!("{HEAD}msgid \"one {{x}}\"\nmsgid_plural \"{{n}} {{x}}\"\nmsgstr[0] \"a {{x}}\"\nmsgstr[1] \"b {{x}}\"\n");
        let cut = (0..=cut.min(whole.len())).rev().find(|k| whole.is_char_boundary(*k)).unwrap_or(0);
        let _ = Catalogue::read("x", &format!("{}{with}{}", &whole[..cut], &whole[cut..]));
        let _ = Catalogue::read("x", &format!("{}{with}", &whole[..cut]));
    }
}
