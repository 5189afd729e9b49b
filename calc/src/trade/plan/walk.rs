//! The fields of the plan in the order in which a technician meets them: first what one walk to the tap gives, then
//! what papers, labels and a quiet hour give. They are declared so, once, with the plan itself.

pub use super::declared::{AT_THE_TAP, IN_DETAIL, WORKED_OUT};

/// Some fields that are read at one spot.
#[derive(Debug)]
pub struct Group {
    /// Permanent, kebab-case.
    pub id: &'static str,
    /// In words.
    pub name: &'static str,
    /// What to have at hand.
    pub about: &'static str,
    /// In the order in which they are met.
    pub fields: &'static [Asked],
}

/// A field of the plan.
#[derive(Debug)]
pub struct Asked {
    /// The id of the input.
    pub id: &'static str,
    /// What it is said of.
    pub home: Home,
    /// Of a reading that holds only in the water in which it was taken, the field that keeps the temperature of that
    /// water. The form fills it with the tap's temperature of the moment, once, when the reading is typed: afterwards it
    /// goes with the RO, wherever that is moved.
    pub water: Option<&'static str>,
}

/// What a field is said of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Home {
    /// The RO and the cart of filters that moves with it.
    Ro,
    /// One of the places where it works.
    Place,
}

/// A field that another sheet works out from what a technician has at hand instead.
#[derive(Debug, PartialEq, Eq)]
pub struct WorkedOut {
    /// The id of the plan's input.
    pub field: &'static str,
    /// The id of the sheet.
    pub sheet: &'static str,
    /// The id of its output.
    pub output: &'static str,
}

/// A sheet whose inputs are declared group by group, each as `home name "id": Type = term` and, where it has them,
/// `by "sheet" "output"` and `water "id"`.
#[doc(hidden)]
#[macro_export]
macro_rules! sheet_of_groups {
    (
        $(#[doc = $about:literal])+
        $sheet:ident, $id:literal, $name:literal, $stage:expr,
        also: $also:expr,
        sources: $sources:expr,
        cautions: $cautions:expr,
        criteria: $criteria:expr,
        figures: $figures:expr,
        $( view $view:ident: {
            $( $group:literal, $title:literal, $what:literal {
                $( $home:ident $field:ident $field_id:literal: $type:ty = $term:expr
                    $(, by $by:literal $output:literal)? $(, water $water:literal)?; )+
            } )+
        } )+
        outputs $outputs:ident: { $($declared:tt)+ }
    ) => {
        $crate::sheet! {
            $(#[doc = $about])+
            $sheet, $id, $name, $stage,
            also: $also,
            sources: $sources,
            cautions: $cautions,
            criteria: $criteria,
            figures: $figures,
            inputs: { $( $( $( $field $field_id: $type = $term, )+ )+ )+ }
            outputs $outputs: { $($declared)+ }
        }

        $crate::sheet_of_groups! { @views
            $( $view [ $( $crate::trade::plan::walk::Group {
                id: $group, name: $title, about: $what,
                fields: &[ $( $crate::trade::plan::walk::Asked {
                    id: $field_id,
                    home: $crate::trade::plan::walk::Home::$home,
                    water: $crate::sheet_of_groups!(@water $($water)?),
                } ),+ ],
            } ),+ ] )+
        }

        /// Fields that another sheet works out, in the order of the walk.
        pub static WORKED_OUT: &[$crate::trade::plan::walk::WorkedOut] = &[ $( $( $( $(
            $crate::trade::plan::walk::WorkedOut { field: $field_id, sheet: $by, output: $output },
        )? )+ )+ )+ ];
    };
    (@views at_the_tap $tap:tt in_detail $detail:tt) => {
        /// What fifteen minutes at the tap give.
        pub static AT_THE_TAP: &[$crate::trade::plan::walk::Group] = &$tap;
        /// What papers and a quiet hour give.
        pub static IN_DETAIL: &[$crate::trade::plan::walk::Group] = &$detail;
    };
    (@water) => { None };
    (@water $water:literal) => { Some($water) };
}

fn asked(field: &str) -> Option<&'static Asked> {
    AT_THE_TAP.iter().chain(IN_DETAIL).flat_map(|group| group.fields).find(|asked| asked.id == field)
}

/// What a field of the plan is said of; of the place what the plan does not ask.
pub fn home_of(field: &str) -> Home {
    asked(field).map_or(Home::Place, |asked| asked.home)
}

/// The field that keeps the temperature of the water in which this one was read, if it has one.
pub fn water_of(field: &str) -> Option<&'static str> {
    asked(field)?.water
}

/// Whether a field stands on the second view: its papers and labels may not be at hand yet.
pub fn is_in_detail(field: &str) -> bool {
    IN_DETAIL.iter().flat_map(|group| group.fields).any(|asked| asked.id == field)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::program::catalogue::find;

    #[test]
    fn what_is_worked_out_is_a_number_of_the_same_kind() {
        let plan = find("plan").unwrap().declaration;
        for WorkedOut { field, sheet, output } in WORKED_OUT {
            let asked =
                plan.inputs.iter().find(|input| input.id == *field).unwrap_or_else(|| panic!("{field}"));
            let sheet = find(sheet).unwrap_or_else(|| panic!("{sheet}")).declaration;
            let given =
                sheet.outputs.iter().find(|found| found.id == *output).unwrap_or_else(|| panic!("{output}"));
            let kinds = (asked.term.kind.map(|kind| kind.id), given.term.kind.map(|kind| kind.id));
            assert!(kinds.0.is_some() && kinds.0 == kinds.1, "{field}: {kinds:?}");
        }
    }

    #[test]
    fn a_reading_and_the_temperature_of_its_water_go_together() {
        let fields = || AT_THE_TAP.iter().chain(IN_DETAIL).flat_map(|group| group.fields);
        let mut waters = 0;
        for reading in fields() {
            let Some(water) = reading.water else { continue };
            let water = asked(water).unwrap_or_else(|| panic!("{water}"));
            assert_eq!((reading.home, water.home), (Home::Ro, Home::Ro), "{}", reading.id);
            waters += 1;
        }
        assert_eq!(waters, 2, "product and reject, and the filter's drop");
    }
}
