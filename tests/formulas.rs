//! The tables of check values of single formulas, `published/formulas/`: what no sheet answers alone.

use crate::rows::{Kind, half_width, records};
use calc::engine::quantity::{
    Density, Flow, FlowCoefficient, Temperature, celsius, kinds::FLOW, litres_per_minute, millimetres,
};
use calc::engine::statistics::{
    line::{Line, least_squares},
    normal_two_sided,
};
use calc::trade::product::poisson;
use calc::trade::tap::factor_to_25;
use calc::trade::water::activity::DebyeHueckel;
use calc::trade::water::pipe::{
    friction_factor, friction_factor_swamee_jain_1976, loss_coefficient, mean_velocity, reynolds_number,
    velocity_pressure,
};
use calc::trade::water::{density, viscosity, viscosity_iapws_2008};
use serde_json::{Map, Value as Json};

/// One row: a formula, what is put in, what is expected.
#[derive(Debug, Clone)]
pub struct Row {
    /// `tests/published/formulas/water.csv:3`
    pub at: String,
    formula: String,
    arguments: Map<String, Json>,
    /// A number.
    pub expected: String,
    /// As in the tables of the sheets.
    pub tolerance: String,
    /// Where it comes from.
    pub kind: Kind,
    /// Who says so.
    pub source: String,
    /// The arithmetic, or why the tolerance is what it is.
    pub note: String,
}

const COLUMNS: [&str; 9] =
    ["formula", "arguments", "expected", "unit", "tolerance", "kind", "source", "place", "note"];

const TABLES: [(&str, &str); 3] = [
    ("ions.csv", include_str!("published/formulas/ions.csv")),
    ("statistics.csv", include_str!("published/formulas/statistics.csv")),
    ("water.csv", include_str!("published/formulas/water.csv")),
];

const NORRIS: &str = include_str!("published/formulas/norris.txt");
const LONGLEY: &str = include_str!("published/formulas/longley.txt");

/// Every row of every table.
///
/// # Errors
/// A sentence with file and line for a table that is not as it should be.
pub fn all() -> Result<Vec<Row>, String> {
    let mut rows = Vec::new();
    for (name, text) in TABLES {
        for (at, record) in records(&format!("tests/published/formulas/{name}"), &COLUMNS, text)? {
            let cell = |index: usize| record.get(index).unwrap_or("").to_owned();
            let arguments = serde_json::from_str(&cell(1)).map_err(|error| format!("{at}: {error}"))?;
            let kind = Kind::named(&cell(5)).map_err(|why| format!("{at}: {why}"))?;
            rows.push(Row {
                at,
                formula: cell(0),
                arguments,
                expected: cell(2),
                tolerance: cell(4),
                kind,
                source: cell(6),
                note: cell(8),
            });
        }
    }
    Ok(rows)
}

impl Row {
    /// Compares what the formula gives with what is expected.
    ///
    /// # Errors
    /// The sentence that tells the difference.
    pub fn compare(&self) -> Result<(), String> {
        let said = |why: String| format!("{}: {}: {why}", self.at, self.formula);
        let ours = self.ours().map_err(said)?;
        let expected: f64 = self.expected.parse().map_err(|_| said("no number is expected".into()))?;
        // the last bits of the conversion itself
        let room = half_width(&self.expected, &self.tolerance).map_err(said)? + 1e-12 * expected.abs();
        if (ours - expected).abs() <= room {
            Ok(())
        } else {
            Err(said(format!("{ours}, expected {} ± {room:.3e}", self.expected)))
        }
    }

    /// An argument that is a number.
    fn number(&self, name: &str) -> Result<f64, String> {
        let given = self.arguments.get(name).and_then(Json::as_f64);
        given.ok_or_else(|| format!("“{name}” is not given"))
    }

    fn water(&self) -> Result<Temperature, String> {
        Ok(celsius(self.number("celsius")?))
    }

    /// The tail that lies so many standard deviations from the middle of a normal distribution.
    fn tail(&self) -> Result<f64, String> {
        Ok(normal_two_sided(self.number("sigma")?) / 2.0)
    }

    /// What the formula gives, in the unit that its row names.
    fn ours(&self) -> Result<f64, String> {
        let number = |name: &str| self.number(name);
        Ok(match self.formula.as_str() {
            "viscosity-2008" => {
                let (t, rho) = (Temperature::of(number("kelvin")?), Density::of(number("kg/m³")?));
                viscosity_iapws_2008(t, rho).si() * 1e6
            }
            "viscosity" => viscosity(self.water()?).si() * 1e3,
            "density" => density(self.water()?).si(),
            "friction-factor" => friction_factor(number("reynolds")?, number("relative-roughness")?).factor,
            "friction-factor-swamee-jain" => {
                friction_factor_swamee_jain_1976(number("reynolds")?, number("relative-roughness")?)
            }
            "reynolds-number" => {
                let (bore, water) = (millimetres(number("mm")?), self.water()?);
                let velocity = mean_velocity(litres_per_minute(number("L/min")?), bore);
                reynolds_number(velocity, bore, density(water), viscosity(water))
            }
            "flow-through-valve" => {
                let valve = FlowCoefficient::of(FLOW.unit("m³/h").to_si(number("Kv")?));
                let bore = millimetres(100.0);
                let at_kv = loss_coefficient(valve, bore)
                    * velocity_pressure(
                        Density::of(number("kg/m³")?),
                        mean_velocity(Flow::of(valve.si()), bore),
                    );
                number("Kv")? * (number("kPa")? * 1e3 / at_kv.si()).sqrt()
            }
            "factor-to-25" => factor_to_25(self.water()?),
            "log-activity" => DebyeHueckel::at(self.water()?).sized(
                number("charge")?,
                number("size")?,
                number("slope")?,
                number("mol/kg")?,
            ),
            "mean-activity-davies" => {
                let (cation, anion, salt) = (number("cation")?, number("anion")?, number("mol/kg")?);
                // anion · cation atoms of charge, so that the salt is neutral
                let strength = 0.5 * salt * (anion * cation * cation + cation * anion * anion);
                10f64.powf(DebyeHueckel::at(self.water()?).davies((cation * anion).sqrt(), strength))
            }
            "poisson-lower" => poisson::lower(number("count")? as u32, self.tail()?),
            "poisson-upper" => poisson::upper(number("count")? as u32, self.tail()?),
            "line" => self.of_line()?,
            "least-squares" => self.of_fit()?,
            other => return Err(format!("there is no formula “{other}”")),
        })
    }

    fn of_line(&self) -> Result<f64, String> {
        let points: Vec<(f64, f64)> = columns_of(NORRIS)?.into_iter().map(|row| (row[0], row[1])).collect();
        let line = Line::through(&points).ok_or("there is no line")?;
        match self.arguments.get("of").and_then(Json::as_str) {
            Some("intercept") => Ok(line.intercept),
            Some("slope") => Ok(line.slope),
            Some("slope-error") => Ok(line.slope_error),
            Some("residual") => Ok(line.residual),
            other => Err(format!("a line has no {other:?}")),
        }
    }

    fn of_fit(&self) -> Result<f64, String> {
        let rows = columns_of(LONGLEY)?;
        let width = rows.first().map_or(0, |row| row.len() - 1);
        let mut columns = vec![vec![1.0; rows.len()]];
        columns.extend((0..width).map(|column| rows.iter().map(|row| row[column]).collect()));
        let readings: Vec<f64> = rows.iter().map(|row| row[width]).collect();
        let fit = least_squares(&columns, &readings).ok_or("there is no fit")?;
        let (wanted, values) = match self.number("coefficient") {
            Ok(index) => (index, fit.coefficients),
            Err(_) => (self.number("error")?, fit.standard_errors.ok_or("there is no error")?),
        };
        values.get(wanted as usize).copied().ok_or_else(|| "there is no such coefficient".into())
    }
}

/// Numbers in columns; `#` begins a remark.
fn columns_of(text: &str) -> Result<Vec<Vec<f64>>, String> {
    let numbers = |line: &str| line.split_whitespace().map(str::parse).collect::<Result<Vec<f64>, _>>();
    let lines = text.lines().filter(|line| !line.starts_with('#'));
    lines.map(|line| numbers(line).map_err(|error| format!("{line}: {error}"))).collect()
}
