//! A laboratory's report, read: each substance once, in one form, whatever the form in which it was reported.

use super::Analyte;
use crate::engine::quantity::{Concentration, Molality, Ratio};
use crate::engine::sheet::{Known, Missing, Problem, Reported, Sentence, Slot, Stop, Working};
use crate::trade::terms::report::{FeedResult, RESULT};

/// The molar mass of the hydrogen carbonate ion, as which alkalinity is dissolved; g/mol.
const BICARBONATE: f64 = Analyte::Bicarbonate.substance().molar_mass;

/// What a laboratory found, by analyte.
#[derive(Debug, Clone, PartialEq)]
pub struct Report {
    /// By the place of the analyte, in its plain form.
    found: [Option<Reported<Concentration>>; Analyte::NAMED.len()],
}

impl Report {
    /// Reads the rows; warns of results that look like another unit's.
    ///
    /// # Errors
    /// One substance that stands twice, also in two forms.
    pub fn read(rows: &[FeedResult], w: &mut Working) -> Result<Self, Stop> {
        let mut found = [None; Analyte::NAMED.len()];
        let mut problems = Vec::new();
        for (row, result) in rows.iter().enumerate() {
            let place = &mut found[result.analyte.plain() as usize];
            if place.is_some() {
                problems.push(twice(row, result.analyte));
            }
            *place = Some(result.result.map(|value| result.analyte.as_plain(value)));
            let usual = Concentration::of(result.analyte.substance().usual / 1000.0);
            // beyond the range of the column a warning is given anyway
            let value = result.result.at_most();
            let told = value.si() > RESULT.plausible.1;
            if value > usual && !told {
                let sentence = Sentence::plain("{analyte}: {value} is unusual in water from a tap (usually at most {usual}). It was used; check number and unit")
                    .with("analyte", Slot::Word(result.analyte.name()));
                w.warn(
                    "feed-report",
                    "unusual-result",
                    sentence.quantity("value", value).quantity("usual", usual),
                );
            }
        }
        if problems.is_empty() { Ok(Self { found }) } else { Err(Stop::Problems(problems)) }
    }

    /// The result in its plain form, if there is one.
    pub fn reported(&self, analyte: Analyte) -> Option<Reported<Concentration>> {
        self.found[analyte.plain() as usize]
    }

    /// The same as a number; "less than" counts as all of its bound.
    pub fn of(&self, analyte: Analyte) -> Option<Concentration> {
        self.reported(analyte).map(Reported::at_most)
    }

    /// The first analyte that was reported as less than something.
    pub fn first_below(&self) -> Option<Analyte> {
        let below = |analyte: &&Analyte| matches!(self.reported(**analyte), Some(Reported::Below(_)));
        Analyte::ALL.iter().filter(|analyte| analyte.plain() == **analyte).find(below).copied()
    }

    /// The result in its plain form.
    ///
    /// # Errors
    /// Not known, with these words.
    pub fn need(&self, analyte: Analyte, lacking: &'static str) -> Known<Concentration> {
        self.of(analyte).ok_or(Missing::not_known("feed-report", lacking))
    }

    /// The same report with another value of one analyte, in its plain form.
    pub fn with(&self, analyte: Analyte, value: Concentration) -> Self {
        let mut found = self.found;
        found[analyte.plain() as usize] = Some(Reported::Is(value));
        Self { found }
    }

    /// All that is dissolved, alkalinity as hydrogen carbonate, nitrate and ammonium as the ions that they are.
    pub fn dissolved(&self) -> Concentration {
        let masses = self.rows().map(|(analyte, value)| match analyte {
            Analyte::Alkalinity => 2.0 * analyte.moles(value) * BICARBONATE,
            Analyte::NitrateNitrogen => analyte.moles(value) * Analyte::Nitrate.substance().molar_mass,
            Analyte::AmmoniumNitrogen => analyte.moles(value) * Analyte::Ammonium.substance().molar_mass,
            _ => value.si(),
        });
        Concentration::of(masses.sum())
    }

    /// Every solute as amount for the mass of water, and its charge; alkalinity as hydrogen carbonate.
    pub fn solutes(&self) -> impl Iterator<Item = (Analyte, Molality, f64)> {
        // a litre of dilute solution weighs a kilogram
        let water = (1.0 - self.dissolved().si() / 1000.0).max(0.1);
        self.rows().map(move |(analyte, value)| {
            let (number, charge) = match analyte {
                Analyte::Alkalinity => (2.0, -1.0),
                _ => (1.0, analyte.substance().charge),
            };
            (analyte, Molality::of(number * analyte.moles(value) / water), charge)
        })
    }

    /// Ionic strength without ion pairs.
    ///
    /// # Formula
    /// I = ½ Σ m z²
    ///
    /// # Source
    /// By definition (Lewis and Randall).
    pub fn ionic_strength(&self) -> Molality {
        Molality::of(
            0.5 * self.solutes().map(|(_, molality, charge)| molality.si() * charge * charge).sum::<f64>(),
        )
    }

    /// By how much positive and negative charge differ, as a share of both; none without any ion.
    pub fn charge_imbalance(&self) -> Option<Ratio> {
        let (sum, total) = self.solutes().fold((0.0, 0.0), |(sum, total), (_, molality, charge)| {
            (sum + molality.si() * charge, total + molality.si() * charge.abs())
        });
        (total > 0.0).then(|| Ratio::of(sum / total))
    }

    fn rows(&self) -> impl Iterator<Item = (Analyte, Concentration)> {
        Analyte::ALL.iter().filter_map(|analyte| Some((*analyte, self.found[*analyte as usize]?.at_most())))
    }
}

fn twice(row: usize, analyte: Analyte) -> Problem {
    let template = "{analyte} is on the report already, perhaps in another form (nitrate as N and as NO3, bicarbonate and alkalinity): keep one row";
    Problem {
        field: "feed-report",
        cell: Some((row, "analyte")),
        sentence: Sentence::plain(template).with("analyte", Slot::Word(analyte.name())),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn report(rows: &[(Analyte, f64)]) -> Result<(Report, usize), Stop> {
        let rows: Vec<FeedResult> = rows
            .iter()
            .map(|(analyte, value)| FeedResult {
                analyte: *analyte,
                result: Reported::Is(Concentration::of(value * 1e-3)),
            })
            .collect();
        let mut w = Working::silent();
        Report::read(&rows, &mut w).map(|report| (report, w.warnings().len()))
    }

    #[test]
    fn nitrate_in_two_forms_is_refused() {
        let both = report(&[(Analyte::Nitrate, 9.0), (Analyte::NitrateNitrogen, 2.0)]);
        let Err(Stop::Problems(problems)) = both else { panic!("{both:?}") };
        assert_eq!(problems[0].cell, Some((1, "analyte")));
    }

    #[test]
    fn micrograms_entered_as_milligrams_are_told() {
        assert_eq!(report(&[(Analyte::Lead, 0.002)]).unwrap().1, 0);
        assert_eq!(report(&[(Analyte::Lead, 2.0)]).unwrap().1, 1);
    }

    #[test]
    fn sums_by_hand() {
        // Ca 8, alkalinity 22 (0.4396 mmol of HCO3, 26.82 mg), SiO2 5: 39.82 mg/L; in 0.99996 kg of water
        let (report, _) =
            report(&[(Analyte::Calcium, 8.0), (Analyte::Alkalinity, 22.0), (Analyte::Silica, 5.0)]).unwrap();
        assert!((report.dissolved().si() * 1000.0 - 39.82).abs() < 0.005);
        // ½ (4 · 0.19961 + 0.43962) = 0.61903 mmol/kg
        assert!((report.ionic_strength().si() * 1000.0 - 0.61906).abs() < 2e-5);
        // (0.39922 − 0.43962) / 0.83884 = −4.82 %
        assert!((report.charge_imbalance().unwrap().si() + 0.04816).abs() < 5e-5);
    }
}
