//! Figures that a sheet declares over its own numbers. The page draws any of them; no sheet draws anything.

use super::criterion::Criterion;
use super::shape::{Declaration, Stage};
use super::value::Answer;

/// A figure of a sheet.
#[derive(Debug)]
pub struct Figure {
    /// Permanent, kebab-case.
    pub id: &'static str,
    /// In words.
    pub name: &'static str,
    /// How it is read, in one sentence.
    pub about: &'static str,
    /// Where its numbers stand in tables with a row for each time of the year, it opens at the time at which this is worst.
    pub opens_at: Option<&'static Criterion>,
    /// What is drawn.
    pub draws: Draws,
}

/// The kinds of figures.
#[derive(Debug)]
pub enum Draws {
    /// A quantity that falls from step to step, for several flights of steps, with a limit.
    Stairs {
        /// What is read upwards.
        quantity: &'static str,
        /// What the steps are, along the stairs.
        along: &'static str,
        /// The steps, in few letters each.
        steps: &'static [&'static str],
        /// Each with a number for each step.
        flights: &'static [Flight],
        /// The least that will do.
        least: Shown,
    },
    /// The way of a flow from spot to spot, its width the flow; one may switch between its cases.
    Path {
        /// The cases: the id and the words of each.
        cases: &'static [(&'static str, &'static str)],
        /// In the order of the flow; what leaves it comes last.
        spots: &'static [Spot],
    },
    /// Hours of a day, one stretch after the other, within the hours that there are.
    Clock(Clocked),
}

/// The hours of a day, from a table with a row for each of what follows one another.
#[derive(Debug)]
pub struct Clocked {
    /// The table: its columns are times from the beginning of the first row on; the first column counts the rows.
    pub course: &'static str,
    /// The table with the same columns by the clock, in the same order.
    pub clock: Option<&'static str>,
    /// Columns between which it is drawn low, half high and full.
    pub low: [&'static str; 2],
    /// See `low`.
    pub half: [&'static str; 2],
    /// See `low`.
    pub full: [&'static str; 2],
    /// What the full height is.
    pub full_name: &'static str,
    /// What lies between two rows.
    pub between: &'static str,
    /// A column, and which of its choices is marked before the row.
    pub note: (&'static str, &'static str),
    /// How long the day is.
    pub hours: Shown,
    /// Said under it.
    pub last: &'static [Shown],
}

/// A spot on a path.
#[derive(Debug)]
pub struct Spot {
    /// Where it is.
    pub stage: Stage,
    /// In words.
    pub name: &'static str,
    /// What flows there, in each case.
    pub flow: &'static [Shown],
    /// What is shown there: a short name, and the number in each case; one that is the same in all stands once.
    pub shows: &'static [(&'static str, &'static [Shown])],
}

/// One flight of steps.
#[derive(Debug)]
pub struct Flight {
    /// In words.
    pub name: &'static str,
    /// Its number at each step.
    pub at: &'static [Shown],
}

/// A number of a sheet, by where it stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shown {
    /// An input.
    Entered(&'static str),
    /// The first of these inputs that was entered.
    FirstEntered(&'static [&'static str]),
    /// An output.
    Answered(&'static str),
    /// A column of an output with a row for each time of the year.
    At(&'static str, &'static str),
    /// The number of a check, at its worst time of the year: the id of its criterion, and its case.
    Checked(&'static str, &'static str),
    /// What only a test at the spot can tell.
    ByTest,
}

impl Shown {
    /// Whether the sheet has it.
    pub fn is_declared(self, sheet: &Declaration) -> bool {
        match self {
            Shown::Entered(id) => sheet.input(id).is_some(),
            Shown::FirstEntered(ids) => !ids.is_empty() && ids.iter().all(|id| sheet.input(id).is_some()),
            Shown::Answered(id) => sheet.output(id).is_some(),
            Shown::At(table, column) => sheet.column(table, column).is_some(),
            Shown::Checked(id, case) => sheet.criteria.iter().any(|criterion| {
                criterion.id == id
                    && (criterion.cases.is_empty() || criterion.cases.iter().any(|one| one.id == case))
            }),
            Shown::ByTest => true,
        }
    }
}

impl Figure {
    /// Every number that it shows.
    pub fn shows(&self) -> Vec<Shown> {
        match &self.draws {
            Draws::Stairs { flights, least, .. } => {
                flights.iter().flat_map(|flight| flight.at).chain([least]).copied().collect()
            }
            Draws::Path { spots, .. } => {
                let of_spot =
                    |spot: &'static Spot| spot.flow.iter().chain(spot.shows.iter().flat_map(|(_, at)| *at));
                spots.iter().flat_map(of_spot).copied().collect()
            }
            Draws::Clock(clocked) => clocked.shows(),
        }
    }

    /// The table by whose rows the time of the year is chosen.
    pub fn table(&self) -> Option<&'static str> {
        if !matches!(self.draws, Draws::Stairs { .. } | Draws::Path { .. }) {
            return None;
        }
        self.shows().into_iter().find_map(|shown| match shown {
            Shown::At(table, _) => Some(table),
            _ => None,
        })
    }
}

impl Clocked {
    /// The columns that are drawn, in the order of the day.
    pub fn columns(&self) -> [&'static str; 5] {
        [self.low[0], self.half[0], self.full[0], self.full[1], self.half[1]]
    }

    fn shows(&self) -> Vec<Shown> {
        let columns = self.columns().into_iter().chain([self.note.0]);
        let columns = columns.map(|column| Shown::At(self.course, column));
        columns
            .chain(self.clock.map(Shown::Answered))
            .chain([self.hours])
            .chain(self.last.iter().copied())
            .collect()
    }
}

impl Declaration {
    /// The output that is a table, and the index of its column.
    pub fn column(&self, table: &str, column: &str) -> Option<(usize, usize)> {
        let index = self.output(table)?;
        let super::Shape::Table(columns) = self.outputs[index].shape else { return None };
        Some((index, columns.iter().position(|field| field.id == column)?))
    }
}

/// The row of a table of answers whose first cell is this choice.
pub fn row<'a>(rows: &'a [Vec<Answer>], choice: &str) -> Option<&'a [Answer]> {
    let is_it = |row: &&Vec<Answer>| matches!(row.first(), Some(Answer::Choice(named)) if named.id == choice);
    rows.iter().find(is_it).map(Vec::as_slice)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::sheet::Shape;
    use crate::program::catalogue::SHEETS;

    #[test]
    fn everything_that_is_drawn_is_declared() {
        let mut figures = 0;
        for sheet in SHEETS.iter().map(|entry| entry.declaration) {
            for figure in sheet.figures {
                figures += 1;
                for shown in figure.shows() {
                    assert!(shown.is_declared(sheet), "{}, {}: {shown:?}", sheet.id, figure.id);
                }
                match &figure.draws {
                    Draws::Stairs { steps, flights, .. } => {
                        assert!(flights.iter().all(|flight| flight.at.len() == steps.len()), "{}", figure.id);
                    }
                    Draws::Path { cases, spots } => {
                        for spot in *spots {
                            assert_eq!(spot.flow.len(), cases.len(), "{}", spot.name);
                            assert!(
                                spot.shows.iter().all(|(_, at)| [1, cases.len()].contains(&at.len())),
                                "{}",
                                spot.name
                            );
                        }
                        let order = |spot: &Spot| Stage::ALL.iter().position(|stage| *stage == spot.stage);
                        assert!(spots.is_sorted_by_key(order), "in the order of the water");
                    }
                    Draws::Clock(clocked) => {
                        let (_, note) = sheet.column(clocked.course, clocked.note.0).unwrap();
                        let Shape::Table(columns) =
                            sheet.outputs[sheet.output(clocked.course).unwrap()].shape
                        else {
                            panic!("{}", clocked.course);
                        };
                        let Shape::Choice(named) = columns[note].shape else { panic!("{}", figure.id) };
                        assert!(named.iter().any(|choice| choice.id == clocked.note.1), "{}", figure.id);
                    }
                }
            }
        }
        assert!(figures > 1);
    }
}
