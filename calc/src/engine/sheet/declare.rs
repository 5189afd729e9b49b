//! The macros with which a sheet is declared once, and everything else follows.

/// One value of a term as code, its tokens kept as the formula that is shown.
///
/// `step!(w, time "t" = volume / flow)` is `let time = volume / flow;` and a step of the working. With a type,
/// `step!(w, loss "Δp": PressureDifference = …)`, the expression is a bare number in SI.
#[macro_export]
macro_rules! step {
    ($w:expr, $name:ident $symbol:literal = $($formula:tt)+) => {
        let $name = $($formula)+;
        $w.formula(stringify!($name), $symbol, stringify!($($formula)+), $name);
    };
    ($w:expr, $name:ident $symbol:literal : $type:ty = $($formula:tt)+) => {
        let $name = <$type as $crate::engine::quantity::Quantity>::from_si($($formula)+);
        $w.formula(stringify!($name), $symbol, stringify!($($formula)+), $name);
    };
}

/// A temperature on its scale as the same temperature above absolute zero: a step of its own.
#[macro_export]
macro_rules! absolute {
    ($w:expr, $name:ident $symbol:literal = $from:ident) => {
        let $name = $from.absolute();
        $w.conversion((stringify!($name), $symbol), stringify!($from), $from, $name);
    };
}

/// A choice among named values.
#[macro_export]
macro_rules! choice {
    ($(#[$doc:meta])* $type:ident { $( $(#[$note:meta])* $variant:ident $id:literal $name:literal ),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum $type { $( $(#[$note])* #[doc = $name] $variant ),+ }

        impl $type {
            /// Every one of them.
            pub const NAMED: &'static [$crate::engine::sheet::Named] =
                &[$( $crate::engine::sheet::Named { id: $id, name: $name } ),+];

            /// Its id.
            pub const fn id(self) -> &'static str {
                match self { $( Self::$variant => $id ),+ }
            }

            /// Its id with its name.
            #[allow(dead_code)] // not every choice is shown as one
            pub const fn named(self) -> $crate::engine::sheet::Named {
                Self::NAMED[self as usize]
            }
        }

        impl $crate::engine::sheet::Input for $type {
            const SHAPE: $crate::engine::sheet::Shape = $crate::engine::sheet::Shape::Choice(Self::NAMED);
            const NEEDED: bool = true;
            fn read(
                value: Option<&$crate::engine::sheet::Value>,
                field: &'static $crate::engine::sheet::Field,
            ) -> Result<Self, $crate::engine::sheet::Missing> {
                match value {
                    $( Some($crate::engine::sheet::Value::Choice($id)) => Ok(Self::$variant), )+
                    _ => Err($crate::engine::sheet::Missing::empty(field.id, field.term.name)),
                }
            }
        }

        impl $crate::engine::sheet::Output for $type {
            const SHAPE: $crate::engine::sheet::Shape = $crate::engine::sheet::Shape::Choice(Self::NAMED);
            fn answer(&self) -> $crate::engine::sheet::Answer {
                $crate::engine::sheet::Answer::Choice(&Self::NAMED[*self as usize])
            }
        }
    };
}

/// The fields of a sheet or a table as data, each checked at compile time against the kind of its term.
#[doc(hidden)]
#[macro_export]
macro_rules! fields {
    ($direction:ident: $( $field:ident $id:literal: $type:ty = $term:expr, )*) => {
        &[$( {
            const TERM: $crate::engine::sheet::Term = $term;
            const SHAPE: $crate::engine::sheet::Shape = <$type as $crate::engine::sheet::$direction>::SHAPE;
            const _: () = assert!(TERM.fits(SHAPE), concat!("the term of `", $id, "` is of another kind"));
            const _: () = assert!(
                $crate::fields!(@below $direction $type, TERM),
                concat!("the term of `", $id, "` may be \"less than\" and its type may not, or the other way round")
            );
            $crate::engine::sheet::Field {
                id: $id, name: stringify!($field), term: &TERM, shape: SHAPE,
                needed: $crate::fields!(@needed $direction $type),
            }
        } ),*]
    };
    (@list) => { &[] };
    (@list $list:expr) => { $list };
    (@needed Input $type:ty) => { <$type as $crate::engine::sheet::Input>::NEEDED };
    (@needed Output $type:ty) => { true };
    (@below Input $type:ty, $term:ident) => { $term.below == <$type as $crate::engine::sheet::Input>::BELOW };
    (@below Output $type:ty, $term:ident) => { true };
}

/// A row of a table that comes in.
#[macro_export]
macro_rules! input_row {
    ($(#[$doc:meta])* $row:ident { $( $field:ident $id:literal: $type:ty = $term:expr, )+ }) => {
        $(#[$doc])*
        #[derive(Debug, Clone)]
        pub struct $row { $( #[doc = concat!("`", $id, "`")] pub $field: $type ),+ }

        impl $crate::engine::sheet::Row for $row {
            const COLUMNS: &'static [$crate::engine::sheet::Field] =
                $crate::fields!(Input: $( $field $id: $type = $term, )+);
        }

        impl $crate::engine::sheet::InputRow for $row {
            fn read(cells: &[Option<$crate::engine::sheet::Value>]) -> Result<Self, $crate::engine::sheet::Missing> {
                let mut fields = <Self as $crate::engine::sheet::Row>::COLUMNS.iter().enumerate();
                Ok(Self { $( $field: $crate::engine::sheet::take(&mut fields, cells)? ),+ })
            }
            fn shift(&mut self, column: usize, by: $crate::engine::sheet::Shift) {
                #[allow(non_camel_case_types)]
                enum At { $( $field ),+ }
                $( if column == At::$field as usize {
                    $crate::engine::sheet::Input::shift(&mut self.$field, 0, by);
                } )+
            }
        }
    };
}

/// A row of a table that goes out.
#[macro_export]
macro_rules! output_row {
    ($(#[$doc:meta])* $row:ident { $( $field:ident $id:literal: $type:ty = $term:expr, )+ }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, PartialEq)]
        pub struct $row { $( #[doc = concat!("`", $id, "`")] pub $field: $type ),+ }

        impl $crate::engine::sheet::Row for $row {
            const COLUMNS: &'static [$crate::engine::sheet::Field] =
                $crate::fields!(Output: $( $field $id: $type = $term, )+);
        }

        impl $crate::engine::sheet::OutputRow for $row {
            fn answers(&self) -> Vec<$crate::engine::sheet::Answer> {
                vec![$( $crate::engine::sheet::Output::answer(&self.$field) ),+]
            }
            fn numbers(&self, sink: &mut Vec<f64>) {
                $( $crate::engine::sheet::Output::numbers(&self.$field, sink); )+
            }
        }
    };
}

/// A sheet: what it asks, what it answers with, what it rests on. The arithmetic follows in `impl Evaluate`.
#[macro_export]
macro_rules! sheet {
    (
        $(#[doc = $about:literal])+
        $sheet:ident, $id:literal, $name:literal, $stage:expr,
        $(also: $also:expr,)?
        sources: $sources:expr,
        cautions: $cautions:expr,
        criteria: $criteria:expr,
        $(figures: $figures:expr,)?
        inputs: { $( $in_field:ident $in_id:literal: $in_type:ty = $in_term:expr, )+ }
        outputs $outputs:ident: { $( $out_field:ident $out_id:literal: $out_type:ty = $out_term:expr, )+ }
    ) => {
        $(#[doc = $about])+
        #[derive(Debug, Clone)]
        pub struct $sheet { $( #[doc = concat!("`", $in_id, "`")] pub $in_field: $in_type ),+ }

        #[doc = concat!("The answers of [`", stringify!($sheet), "`].")]
        #[derive(Debug, Clone, PartialEq)]
        pub struct $outputs { $( #[doc = concat!("`", $out_id, "`")] pub $out_field: $out_type ),+ }

        impl $crate::engine::sheet::Sheet for $sheet {
            const DECLARATION: &'static $crate::engine::sheet::Declaration = &$crate::engine::sheet::Declaration {
                id: $id,
                name: $name,
                also: $crate::fields!(@list $($also)?),
                about: concat!($($about),+),
                stage: $stage,
                inputs: $crate::fields!(Input: $( $in_field $in_id: $in_type = $in_term, )+),
                outputs: $crate::fields!(Output: $( $out_field $out_id: $out_type = $out_term, )+),
                criteria: $criteria,
                cautions: $cautions,
                sources: $sources,
                figures: $crate::fields!(@list $($figures)?),
            };
            fn read(values: &[Option<$crate::engine::sheet::Value>]) -> Result<Self, $crate::engine::sheet::Missing> {
                let mut fields = Self::DECLARATION.inputs.iter().enumerate();
                Ok(Self { $( $in_field: $crate::engine::sheet::take(&mut fields, values)? ),+ })
            }
            fn held(&self, field: usize) -> Option<&dyn $crate::engine::sheet::Held> {
                #[allow(non_camel_case_types)]
                enum At { $( $in_field ),+ }
                $( if field == At::$in_field as usize {
                    return Some(&self.$in_field);
                } )+
                None
            }
            fn held_mut(&mut self, field: usize) -> Option<&mut dyn $crate::engine::sheet::Held> {
                #[allow(non_camel_case_types)]
                enum At { $( $in_field ),+ }
                $( if field == At::$in_field as usize {
                    return Some(&mut self.$in_field);
                } )+
                None
            }
        }

        impl $crate::engine::sheet::Outputs for $outputs {
            fn answers(&self) -> Vec<$crate::engine::sheet::Answer> {
                vec![$( $crate::engine::sheet::Output::answer(&self.$out_field) ),+]
            }
            fn numbers(&self, sink: &mut Vec<f64>) {
                use $crate::engine::sheet::Output;
                $( if Output::is_one_number(&self.$out_field) { Output::numbers(&self.$out_field, sink); } )+
                $( if !Output::is_one_number(&self.$out_field) { Output::numbers(&self.$out_field, sink); } )+
            }
        }
    };
}
