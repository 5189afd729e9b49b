//! What a kind of quantity is, and the units in which a person may write it.
//!
//! Units are values, chosen at run time on the page. A factor is an exact expression from the unit's definition and
//! turns the unit into the SI unit of its kind: `si = value * factor + offset`.

/// One unit of a kind.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// As it is written: `gal/min`.
    pub symbol: &'static str,
    /// Other ways in which people write it: `gpm`.
    pub aliases: &'static [&'static str],
    /// In words, for a label that is read aloud: `US gallons per minute`.
    pub words: &'static str,
    /// SI units in one of it.
    pub factor: f64,
    /// What is added after the factor; not zero only for temperatures.
    pub offset: f64,
}

impl Unit {
    /// The value in the SI unit of the kind.
    pub const fn to_si(&self, value: f64) -> f64 {
        value * self.factor + self.offset
    }

    /// The value in this unit.
    pub const fn of_si(&self, si: f64) -> f64 {
        (si - self.offset) / self.factor
    }

    /// As it is shown on a page. The symbol, which stands in files, is written out in full; in the trade a flow is in gpm, and
    /// a difference of temperatures in degrees.
    ///
    /// ```
    /// use calc::engine::quantity::kinds::{FLOW, HEAT_CAPACITY, TEMPERATURE_DIFFERENCE};
    /// assert_eq!(FLOW.unit("gal/min").shown(), "gpm");
    /// assert_eq!(TEMPERATURE_DIFFERENCE.unit("K").shown(), "°C");
    /// assert_eq!(HEAT_CAPACITY.unit("kJ/K").shown(), "kJ/°C");
    /// ```
    pub fn shown(&self) -> &'static str {
        match self.symbol {
            "gal/min" => "gpm",
            "gal/min/ft²" => "gpm/ft²",
            "K" if self.aliases.contains(&"°C") => "°C",
            "kJ/K" => "kJ/°C",
            "J/K" => "J/°C",
            symbol => symbol,
        }
    }

    /// Whether a person who wrote `text` meant this unit; spaces and the case of letters do not matter.
    pub fn is_written(&self, text: &str) -> bool {
        // no unit is as long as this, and to spell a whole page plainly for every name takes its time
        text.len() <= LONGEST_NAME && self.is_plainly(&plain(text))
    }

    fn is_plainly(&self, plain: &str) -> bool {
        std::iter::once(&self.symbol).chain(self.aliases).any(|name| plain == self::plain(name))
    }
}

/// The most bytes in which a unit is written, spaces included.
const LONGEST_NAME: usize = 100;

/// Marks that nobody sees and that come along when a text is copied: byte order, direction, zero width, soft hyphen.
pub(crate) fn is_invisible(c: char) -> bool {
    matches!(c, '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{2064}' | '\u{2066}'..='\u{2069}' | '\u{feff}')
}

/// Spelling with everything removed that people write in several ways.
fn plain(text: &str) -> String {
    let letters = text.chars().filter(|c| !c.is_whitespace() && !is_invisible(*c) && *c != '.');
    let letters = letters.flat_map(|c| match c {
        // one sign for degree and letter
        '℃' => ['°', 'C'].into_iter().take(2),
        '℉' => ['°', 'F'].into_iter().take(2),
        other => [other, other].into_iter().take(1),
    });
    letters
        .flat_map(char::to_lowercase)
        .map(|c| match c {
            'μ' | 'µ' => 'u',
            '″' | '”' | '“' => '"',
            '′' | '’' => '\'',
            '³' => '3',
            '²' => '2',
            '₂' => '2',
            '₃' => '3',
            '·' | '⋅' => '*',
            'º' => '°',
            other => other,
        })
        .collect()
}

/// One of three sets of units in which a formula can be shown with its numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UnitSet {
    /// Litres, minutes, bar.
    Metric,
    /// US gallons, minutes, psi.
    Us,
    /// Metres, seconds, pascals: always coherent.
    Si,
}

/// A kind of quantity: what may be added to what. Gauge pressure and pressure difference are two kinds.
#[derive(Debug, Clone, Copy)]
pub struct Kind {
    /// Permanent, kebab-case.
    pub id: &'static str,
    /// In words.
    pub name: &'static str,
    /// All its units; one of them has the factor 1 and no offset.
    pub units: &'static [Unit],
    /// The unit of answers in SI practice.
    pub metric: &'static str,
    /// The unit of answers for US readers.
    pub us: &'static str,
    /// Whether its zero means "nothing of it", so that a margin can be a share of the limit.
    pub true_zero: bool,
    /// The kind of a difference of two of it, where that is another kind (temperatures).
    pub difference: Option<&'static Kind>,
}

impl PartialEq for Kind {
    fn eq(&self, other: &Self) -> bool {
        self.id == other.id
    }
}

impl Kind {
    /// The unit with this very symbol. Used in declarations, at compile time, where an unknown one does not compile.
    pub const fn unit(&'static self, symbol: &str) -> &'static Unit {
        match self.find(symbol) {
            Some(unit) => unit,
            None => panic!("the kind has no unit of this symbol"),
        }
    }

    /// The unit with this very symbol, if the kind has one.
    pub const fn find(&'static self, symbol: &str) -> Option<&'static Unit> {
        let mut i = 0;
        while i < self.units.len() {
            if same(self.units[i].symbol, symbol) {
                return Some(&self.units[i]);
            }
            i += 1;
        }
        None
    }

    /// The unit that a person wrote, in any of its spellings.
    pub fn written(&'static self, text: &str) -> Option<&'static Unit> {
        if text.len() > LONGEST_NAME {
            return None;
        }
        self.find(text).or_else(|| {
            let plain = plain(text);
            self.units.iter().find(|unit| unit.is_plainly(&plain))
        })
    }

    /// The unit of this kind in a coherent set.
    pub fn unit_in(&'static self, set: UnitSet) -> &'static Unit {
        // a share stands in a formula as a fraction, whatever its answer is shown in
        if let Some(bare) = self.find("") {
            return bare;
        }
        match set {
            UnitSet::Metric => self.unit(self.metric),
            UnitSet::Us => self.unit(self.us),
            UnitSet::Si => self.si(),
        }
    }

    /// The SI unit.
    pub fn si(&'static self) -> &'static Unit {
        self.units.iter().find(|unit| unit.factor == 1.0 && unit.offset == 0.0).unwrap_or(&self.units[0])
    }

    /// The kind of a difference of two values.
    pub fn of_difference(&'static self) -> &'static Kind {
        self.difference.unwrap_or(self)
    }

    /// Whether numbers of this kind carry no unit at all (pH, a count).
    pub fn is_bare(&self) -> bool {
        self.units.len() == 1 && self.units[0].symbol.is_empty()
    }
}

/// Equality of texts, at compile time.
pub const fn same(a: &str, b: &str) -> bool {
    let (a, b) = (a.as_bytes(), b.as_bytes());
    if a.len() != b.len() {
        return false;
    }
    let mut i = 0;
    while i < a.len() {
        if a[i] != b[i] {
            return false;
        }
        i += 1;
    }
    true
}
