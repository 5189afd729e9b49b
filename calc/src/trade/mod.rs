//! The trade's calculations: the sheets, by stage along the water path, and what they share.

pub mod limits;
pub mod terms;
pub mod water;

pub mod tap;

pub mod sediment;

pub mod softener;

pub mod carbon;

pub mod membrane;

pub mod machine;

pub mod product;

pub mod drain;

pub mod day;

pub mod disinfect;

pub mod chemical;

pub mod run;

pub mod bench;

pub mod cases;

pub mod plan;
