//! The agents, each with the test that shows its residual and the limit above which no label may allow use.
//!
//! Bleach: total chlorine below 0.1 mg/L, as 25 TAC 117.32(b) asks of the water after the carbon. The limits of peracetic
//! acid and formaldehyde are from memory, to be checked against the text. The label of the product may be stricter, never
//! softer.

use crate::choice;
use crate::engine::quantity::Concentration;

choice!(/// The agent.
Agent {
    PeraceticAcid "peracetic-acid" "Peracetic acid with hydrogen peroxide",
    Hypochlorite "hypochlorite" "Sodium hypochlorite (bleach)",
    CitricAcid "citric-acid" "Citric acid",
    Formaldehyde "formaldehyde" "Formaldehyde",
    Other "other" "Another product",
});

choice!(/// The test with which the residual was read.
TestKind {
    Own "own-test" "The residual test that the product's label names",
    Other "another-test" "Another test, or conductivity alone",
    TotalChlorine "total-chlorine-test" "Total chlorine test",
    FreeChlorine "free-chlorine-test" "Free chlorine test",
    PeraceticAcid "peracetic-acid-test" "Peracetic acid residual test",
    Formaldehyde "formaldehyde-test" "Formaldehyde residual test",
});

impl Agent {
    /// The limit that a label may not exceed.
    pub fn softest_limit(self) -> Option<Concentration> {
        let milligrams = match self {
            Agent::Hypochlorite => 0.1,
            Agent::PeraceticAcid => 1.0,
            Agent::Formaldehyde => 3.0,
            Agent::CitricAcid | Agent::Other => return None,
        };
        Some(Concentration::of(milligrams * 1e-3))
    }

    /// Whether this test shows the residual of this agent. A label's test does, but for bleach, of which the rule itself
    /// names the test.
    pub fn is_shown_by(self, test: TestKind) -> bool {
        match self {
            Agent::Hypochlorite => test == TestKind::TotalChlorine,
            Agent::PeraceticAcid => matches!(test, TestKind::PeraceticAcid | TestKind::Own),
            Agent::Formaldehyde => matches!(test, TestKind::Formaldehyde | TestKind::Own),
            Agent::Other => test == TestKind::Own,
            Agent::CitricAcid => false,
        }
    }

    /// What to use where another test was used.
    pub const fn needs_test(self) -> &'static str {
        match self {
            Agent::Hypochlorite => "only a total chlorine test shows what is left of bleach",
            Agent::PeraceticAcid => {
                "only a peracetic acid residual test shows what is left of it; a chlorine strip does not"
            }
            Agent::Formaldehyde => "only a formaldehyde residual test shows what is left of it",
            Agent::Other | Agent::CitricAcid => "use the residual test that the product's label names",
        }
    }
}
