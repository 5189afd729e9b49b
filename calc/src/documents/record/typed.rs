//! What a person typed, kept as it was typed, with what was read of it at that moment. Read again in another place the same
//! text could be another number, so value and unit count from then on, never the text.

use crate::documents::reading::{Naming, no_unit, quoted, read, typed_number, units};
use crate::engine::quantity::show::exact;
use crate::engine::quantity::text::Typed as Number;
use crate::engine::quantity::{Kind, Unit, UnitSet};
use crate::engine::sheet::{Field, Sentence, Shape, Slot, Value};
use serde_json::{Map, Value as Json, json};

/// A text with the unit beside it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Typed {
    /// As it was typed; of a choice, its id.
    pub text: String,
    /// The unit beside the field, from the moment something stands in it.
    pub unit: Option<&'static Unit>,
    /// Whether the unit was chosen while the text named one: if they differ, neither is taken.
    pub insisted: bool,
    number: Option<Number>,
    from_file: Option<Box<FromFile>>,
}

/// What a file has besides, kept until something else is typed there.
#[derive(Debug, Clone, PartialEq, Default)]
struct FromFile {
    /// Members that this version does not know.
    others: Map<String, Json>,
    /// What is shown in place of a text that says another number than was read of it then.
    shown: Option<String>,
    /// What cannot be taken as a value, as it lies in the file, and why.
    refused: Option<(Json, Sentence)>,
}

impl Typed {
    /// What was typed into a field, with the unit chosen beside it.
    ///
    /// # Example
    /// ```
    /// use calc::{program::catalogue, documents::record::Typed, engine::sheet::Value};
    /// let volume = &catalogue::find("carbon-contact-time").unwrap().declaration.inputs[0];
    /// let typed = Typed::new(volume, "28,3 L", None);
    /// assert_eq!(typed.value(volume), Ok(Some(Value::Number(28.3 * 1e-3))));
    /// assert_eq!(typed.json(volume), serde_json::json!({ "typed": "28,3 L", "value": 28.3, "unit": "L" }));
    /// ```
    pub fn new(field: &'static Field, text: impl Into<String>, unit: Option<&'static Unit>) -> Self {
        let mut typed = Self { text: text.into(), unit, ..Self::default() };
        match field.shape {
            Shape::Number(_) => {
                typed.number = typed_number(field, &typed.text, unit).ok().flatten();
                typed.unit =
                    unit.or(typed.number.map(|number| number.unit)).filter(|unit| !unit.symbol.is_empty());
            }
            // a choice is kept by its id, whatever it is called
            Shape::Choice(_) => {
                if let Ok(Some(Value::Choice(id))) = read(field, &typed.text, None) {
                    typed.text = id.to_owned();
                }
            }
            _ => {}
        }
        typed
    }

    /// The same field with another text. What else the file holds there is not ours to take out.
    pub fn with_text(self, field: &'static Field, text: String, unit: Option<&'static Unit>) -> Self {
        let others = self.from_file.map(|file| file.others).filter(|others| !others.is_empty());
        let from_file = others.map(|others| Box::new(FromFile { others, ..FromFile::default() }));
        Self { from_file, ..Self::new(field, text, unit) }
    }

    /// The same text with another unit chosen beside it.
    pub fn with_unit(self, field: &'static Field, unit: &'static Unit) -> Self {
        let own = self.own_unit(field);
        let text = self.shown().to_owned();
        let mut typed = self.with_text(field, text, Some(unit));
        typed.insisted = own.is_some();
        if own.is_some_and(|own| own != unit) {
            typed.number = None;
        }
        typed
    }

    /// Whether nothing but spaces stands in it.
    pub fn is_empty(&self) -> bool {
        self.text.trim().is_empty() && self.number.is_none() && self.refused().is_none()
    }

    /// What stands in the field: the text, unless it says another number than was read of it then.
    pub fn shown(&self) -> &str {
        self.from_file.as_ref().and_then(|file| file.shown.as_deref()).unwrap_or(&self.text)
    }

    /// The unit of the number that was read.
    pub fn read_unit(&self) -> Option<&'static Unit> {
        self.number.map(|number| number.unit)
    }

    /// As a text that is read back as the same number where `over` stands above it; as it was typed, where it is none.
    pub fn in_a_cell(&self, over: Option<&'static Unit>) -> String {
        let Some(number) = self.number else { return self.shown().to_owned() };
        let sign = if number.below { "<" } else { "" };
        let unit = if Some(number.unit) == over { "" } else { number.unit.symbol };
        format!("{sign}{} {unit}", exact(number.value)).trim_end().to_owned()
    }

    /// The unit that the text itself names: `1,5 gpm`.
    pub fn own_unit(&self, field: &'static Field) -> Option<&'static Unit> {
        named_unit(field, self.shown())
    }

    /// The unit in which the text is read, and which is shown beside it.
    pub fn shown_unit(&self, field: &'static Field, set: UnitSet) -> Option<&'static Unit> {
        let own = if self.insisted { None } else { self.own_unit(field) };
        own.or(self.unit).or_else(|| offered(field, set))
    }

    /// Whether the text names one unit and another was chosen beside it.
    pub fn contradicts(&self, field: &'static Field) -> Option<(&'static Unit, &'static Unit)> {
        let (own, chosen) = (self.own_unit(field)?, self.unit?);
        (self.insisted && own != chosen).then_some((own, chosen))
    }

    /// What the sheet gets; nothing where nothing was typed.
    ///
    /// # Errors
    /// One sentence that says what is wrong and how to write it.
    pub fn value(&self, field: &'static Field) -> Result<Option<Value>, Sentence> {
        if let Some((_, why)) = self.refused() {
            return Err(why.clone());
        }
        let Shape::Number(kind) = field.shape else { return read(field, &self.text, None) };
        if let Some(number) = self.number.filter(|number| kind.units.contains(number.unit)) {
            let si = number.si();
            return Ok(Some(if number.below { Value::Below(si) } else { Value::Number(si) }));
        }
        if self.is_empty() {
            return Ok(None);
        }
        if let Some((own, chosen)) = self.contradicts(field) {
            return Err(Sentence::plain(
                "you typed {own}, but the unit beside it is {chosen}. Type the number alone, or choose {own}",
            )
            .with("own", Slot::Text(own.shown().to_owned()))
            .with("chosen", Slot::Text(chosen.shown().to_owned())));
        }
        read(field, &self.text, self.unit.filter(|unit| kind.units.contains(unit)))?;
        Err(Sentence::plain("{name}: “{typed}” was not understood when it was typed; enter it again")
            .with("typed", quoted(&self.text))
            .of(field))
    }

    /// As it is kept in a file.
    pub fn json(&self, field: &'static Field) -> Json {
        if let Some((whole, _)) = self.refused() {
            return whole.clone();
        }
        if !matches!(field.shape, Shape::Number(_)) {
            return json!(self.text);
        }
        let unit = self.number.map(|number| number.unit).or(self.unit).map(|unit| unit.symbol);
        let value = self.number.map(|number| number.value);
        let mut kept = Map::from_iter([
            ("typed".to_owned(), json!(self.text)),
            ("value".to_owned(), json!(value)),
            ("unit".to_owned(), json!(unit)),
        ]);
        if self.number.is_some_and(|number| number.below) {
            kept.insert("below".into(), json!(true));
        }
        if let Some(file) = &self.from_file {
            kept.extend(file.others.clone());
        }
        Json::Object(kept)
    }

    /// From a file or a request: as [`Typed::json`] writes it, or a text, or a bare number where the kind has no unit.
    pub fn of_json(field: &'static Field, member: &Json) -> Self {
        match (field.shape, member) {
            (_, Json::Null) => Self::default(),
            (Shape::Number(kind), Json::Object(kept)) => Self::of_kept(field, kind, kept),
            (Shape::Number(kind), Json::Number(number)) => {
                let value = number.as_f64().filter(|value| value.is_finite());
                let text = number.to_string();
                match value {
                    Some(value) if kind.is_bare() => {
                        let number = Number { value, below: false, unit: &kind.units[0] };
                        Self { text, number: Some(number), ..Self::default() }
                    }
                    Some(_) => Self::refuse(member, text, no_unit(field)),
                    None => Self::refuse(member, text, too_large(field)),
                }
            }
            (Shape::Table(_), _) => {
                let sentence =
                    Sentence::plain("{name} is a table: give an array of objects, one for each row")
                        .of(field);
                Self::refuse(member, member.to_string(), sentence)
            }
            (_, Json::String(text)) => Self::new(field, text.clone(), None),
            (Shape::Number(_), _) => {
                let sentence =
                    Sentence::plain("{name} is a number: give it as text with its unit, such as “{example}”")
                        .with("example", Slot::Text(example(field)))
                        .of(field);
                Self::refuse(member, member.to_string(), sentence)
            }
            (Shape::Choice(_) | Shape::Date | Shape::Moment | Shape::Text, _) => {
                let sentence = Sentence::plain("{name} is given as text in quotation marks").of(field);
                Self::refuse(member, member.to_string(), sentence)
            }
        }
    }

    fn of_kept(field: &'static Field, kind: &'static Kind, kept: &Map<String, Json>) -> Self {
        let text = kept.get("typed").and_then(Json::as_str).unwrap_or_default().to_owned();
        let named = kept.get("unit").and_then(Json::as_str);
        let refuse = |sentence: Sentence| {
            let unit = named.filter(|unit| !text.contains(unit)).unwrap_or_default();
            let shown = format!("{text} {unit}");
            Self::refuse(&Json::Object(kept.clone()), shown.trim().to_owned(), sentence.of(field))
        };
        if !kept.contains_key("value") && !kept.contains_key("typed") {
            return refuse(
                Sentence::plain("{name}: an object has “value” and “unit”, such as “{example}” has")
                    .with("example", Slot::Text(example(field))),
            );
        }
        if kept.get("typed").is_some_and(|typed| !typed.is_string() && !typed.is_null()) {
            return refuse(Sentence::plain("{name}: “typed” is no text; enter it again"));
        }
        let unit = named.and_then(|unit| kind.written(unit));
        let below = match kept.get("below") {
            None | Some(Json::Null | Json::Bool(false)) => false,
            Some(Json::Bool(true)) if field.term.below => true,
            Some(Json::Bool(true)) => {
                return refuse(Sentence::plain(
                    "{name} cannot be “less than” a number; enter the number itself",
                ));
            }
            Some(_) => {
                return refuse(Sentence::plain("{name}: “below” is neither true nor false; enter it again"));
            }
        };
        let number = match kept.get("value") {
            None | Some(Json::Null) => None,
            Some(Json::Number(value)) => {
                let unit = match kept.get("unit") {
                    None | Some(Json::Null) if kind.is_bare() => &kind.units[0],
                    None | Some(Json::Null) => return refuse(no_unit(field)),
                    Some(_) => match unit {
                        Some(unit) => unit,
                        None => {
                            return refuse(
                                Sentence::plain(
                                    "{name}: “{unit}” is none of its units ({units}); enter it again",
                                )
                                .with("unit", quoted(named.unwrap_or_default()))
                                .with("units", units(kind)),
                            );
                        }
                    },
                };
                let number = Number { value: value.as_f64().unwrap_or(f64::NAN), below, unit };
                if !number.si().is_finite() {
                    return refuse(too_large(field));
                }
                Some(number)
            }
            Some(_) => return refuse(Sentence::plain("{name}: “value” is no JSON number; enter it again")),
        };
        let unit = unit.filter(|unit| !unit.symbol.is_empty());
        let reread = typed_number(field, &text, unit).ok().flatten();
        let shown = number.filter(|number| reread != Some(*number)).map(|number| {
            let sign = if number.below { "<" } else { "" };
            format!("{sign}{}", exact(number.value))
        });
        // a text that was refused since it names another unit than stands beside it stays refused
        let own = named_unit(field, &text);
        let insisted = number.is_none() && own.is_some() && unit.is_some() && own != unit;
        let others: Map<String, Json> = kept
            .iter()
            .filter(|(member, _)| !["typed", "value", "unit", "below"].contains(&member.as_str()))
            .map(|(member, value)| (member.clone(), value.clone()))
            .collect();
        let from_file = (shown.is_some() || !others.is_empty())
            .then(|| Box::new(FromFile { others, shown, refused: None }));
        Self { text, unit, insisted, number, from_file }
    }

    fn refuse(whole: &Json, text: String, why: Sentence) -> Self {
        let refused = Some((whole.clone(), why));
        Self {
            text,
            from_file: Some(Box::new(FromFile { refused, ..FromFile::default() })),
            ..Self::default()
        }
    }

    fn refused(&self) -> Option<&(Json, Sentence)> {
        self.from_file.as_ref()?.refused.as_ref()
    }

    /// In a column over which another unit stands: what is shown names its own.
    pub(super) fn beside_another(&mut self, field: &'static Field) {
        if let Some(unit) = self.number.map(|number| number.unit)
            && named_unit(field, self.shown()).is_none()
        {
            let shown = format!("{} {}", self.shown(), unit.symbol);
            self.from_file.get_or_insert_default().shown = Some(shown);
        }
    }
}

/// The unit first offered in an empty field.
pub fn offered(field: &'static Field, set: UnitSet) -> Option<&'static Unit> {
    match field.shape {
        Shape::Number(kind) if !kind.is_bare() => field.term.unit(set == UnitSet::Us),
        _ => None,
    }
}

/// The unit that a text names.
pub fn named_unit(field: &'static Field, text: &str) -> Option<&'static Unit> {
    match field.shape {
        Shape::Number(kind) if !kind.is_bare() => {
            typed_number(field, text, None).ok().flatten().map(|typed| typed.unit)
        }
        _ => None,
    }
}

fn too_large(field: &'static Field) -> Sentence {
    Sentence::plain("{name} is too large to compute with: look at the number").of(field)
}

/// `2 L/min`, as a pattern to write by.
fn example(field: &'static Field) -> String {
    format!("2 {}", field.term.units[0]).trim_end().to_owned()
}
