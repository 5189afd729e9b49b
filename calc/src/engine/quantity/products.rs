//! Which sums, products and quotients of quantities exist.

use super::kinds::{
    AbsoluteTemperature, Area, Chlorine, ColonyCount, Concentration, Conductivity, Current, Density,
    Endotoxin, Energy, ExchangeCapacity, Flow, FlowCoefficient, Hardness, HardnessPerMetal, HeatCapacity,
    HeatDose, Length, Mass, Molality, Ph, Power, Pressure, PressureDifference, Rate, Ratio, ResinCapacity,
    SaturationIndex, Temperature, TemperatureDifference, Time, Velocity, Viscosity, Voltage, Volume,
};
use std::ops::{Add, Div, Mul, Neg, Sub};

/// Sums, multiples and shares within one kind.
macro_rules! linear {
    ($($type:ident)+) => { $(
        impl Add for $type {
            type Output = $type;
            fn add(self, other: $type) -> $type { $type::of(self.si() + other.si()) }
        }
        impl Sub for $type {
            type Output = $type;
            fn sub(self, other: $type) -> $type { $type::of(self.si() - other.si()) }
        }
        impl Neg for $type {
            type Output = $type;
            fn neg(self) -> $type { $type::of(-self.si()) }
        }
        impl Mul<f64> for $type {
            type Output = $type;
            fn mul(self, factor: f64) -> $type { $type::of(self.si() * factor) }
        }
        impl Mul<$type> for f64 {
            type Output = $type;
            fn mul(self, quantity: $type) -> $type { $type::of(self * quantity.si()) }
        }
        impl Div<f64> for $type {
            type Output = $type;
            fn div(self, divisor: f64) -> $type { $type::of(self.si() / divisor) }
        }
        impl Div for $type {
            type Output = f64;
            fn div(self, other: $type) -> f64 { self.si() / other.si() }
        }
        impl $type {
            /// The greater of the two.
            pub fn max(self, other: $type) -> $type { $type::of(self.si().max(other.si())) }
            /// The smaller of the two.
            pub fn min(self, other: $type) -> $type { $type::of(self.si().min(other.si())) }
        }
    )+ };
}

linear! {
    Volume Flow Time Area Length Velocity PressureDifference TemperatureDifference AbsoluteTemperature Chlorine Hardness
    Concentration Conductivity Density Viscosity HeatDose HeatCapacity Energy FlowCoefficient Ratio Power Current Voltage Molality SaturationIndex ColonyCount Endotoxin ExchangeCapacity HardnessPerMetal Mass Rate ResinCapacity
}

/// A share of something is something of the same kind.
macro_rules! shares {
    ($($type:ident)+) => { $(
        impl Mul<Ratio> for $type {
            type Output = $type;
            fn mul(self, share: Ratio) -> $type { $type::of(self.si() * share.si()) }
        }
        impl Mul<$type> for Ratio {
            type Output = $type;
            fn mul(self, whole: $type) -> $type { $type::of(self.si() * whole.si()) }
        }
        impl Div<Ratio> for $type {
            type Output = $type;
            fn div(self, share: Ratio) -> $type { $type::of(self.si() / share.si()) }
        }
    )+ };
}

shares! { Volume Flow Time PressureDifference Chlorine Hardness Concentration Conductivity Power Current ExchangeCapacity Mass Rate ResinCapacity }

impl Mul for Ratio {
    type Output = Ratio;
    fn mul(self, other: Ratio) -> Ratio {
        Ratio::of(self.si() * other.si())
    }
}

impl Sub<Ratio> for f64 {
    type Output = Ratio;
    fn sub(self, share: Ratio) -> Ratio {
        Ratio::of(self - share.si())
    }
}

impl Add<Ratio> for f64 {
    type Output = Ratio;
    fn add(self, share: Ratio) -> Ratio {
        Ratio::of(self + share.si())
    }
}

impl Sub<f64> for Ratio {
    type Output = Ratio;
    fn sub(self, number: f64) -> Ratio {
        Ratio::of(self.si() - number)
    }
}

impl Div<Ratio> for f64 {
    type Output = f64;
    fn div(self, share: Ratio) -> f64 {
        self / share.si()
    }
}

/// `a / b = c`, and with it `c * b = a`, `b * c = a`, `a / c = b`.
macro_rules! quotients {
    ($($a:ident / $b:ident = $c:ident;)+) => { $(
        impl Div<$b> for $a {
            type Output = $c;
            fn div(self, other: $b) -> $c { $c::of(self.si() / other.si()) }
        }
        impl Div<$c> for $a {
            type Output = $b;
            fn div(self, other: $c) -> $b { $b::of(self.si() / other.si()) }
        }
        impl Mul<$b> for $c {
            type Output = $a;
            fn mul(self, other: $b) -> $a { $a::of(self.si() * other.si()) }
        }
        impl Mul<$c> for $b {
            type Output = $a;
            fn mul(self, other: $c) -> $a { $a::of(self.si() * other.si()) }
        }
    )+ };
}

quotients! {
    Volume / Flow = Time;
    Length / Velocity = Time;
    Volume / Area = Length;
    Flow / Area = Velocity;
    Power / Voltage = Current;
    Energy / Time = Power;
    Mass / Volume = Density;
    ExchangeCapacity / Volume = ResinCapacity;
    Hardness / Concentration = HardnessPerMetal;
}

/// Hardness in a volume of water is what a softener takes up; the capacity of a volume of resin is another thing.
impl Div<Hardness> for ExchangeCapacity {
    type Output = Volume;
    fn div(self, hardness: Hardness) -> Volume {
        Volume::of(self.si() / hardness.si())
    }
}

impl Mul<Hardness> for Volume {
    type Output = ExchangeCapacity;
    fn mul(self, hardness: Hardness) -> ExchangeCapacity {
        ExchangeCapacity::of(self.si() * hardness.si())
    }
}

/// Values on a scale whose zero is arbitrary, or is kept apart from its differences.
macro_rules! points {
    ($($point:ident - $point2:ident = $step:ident;)+) => { $(
        impl Sub for $point {
            type Output = $step;
            fn sub(self, other: $point) -> $step { $step::of(self.si() - other.si()) }
        }
        impl Add<$step> for $point {
            type Output = $point;
            fn add(self, step: $step) -> $point { $point::of(self.si() + step.si()) }
        }
        impl Sub<$step> for $point {
            type Output = $point;
            fn sub(self, step: $step) -> $point { $point::of(self.si() - step.si()) }
        }
        impl $point {
            /// The greater of the two.
            pub fn max(self, other: $point) -> $point { $point::of(self.si().max(other.si())) }
            /// The smaller of the two.
            pub fn min(self, other: $point) -> $point { $point::of(self.si().min(other.si())) }
        }
    )+ };
}

points! {
    Temperature - Temperature = TemperatureDifference;
    Pressure - Pressure = PressureDifference;
    Ph - Ph = SaturationIndex;
}
