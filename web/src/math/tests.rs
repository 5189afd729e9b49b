use super::*;
use calc::engine::sheet::formula::read;

/// In one line: `a/b` in braces is a fraction, `_` an index, `^` a power, `√` a root.
fn line(math: &Math) -> String {
    match math {
        Math::Name(text) | Math::Number(text) | Math::Text(text) => text.clone(),
        Math::Sign(sign) => (*sign).to_owned(),
        Math::Row(parts) => parts.iter().map(line).collect::<Vec<_>>().join(" "),
        Math::Over(a, b) => format!("{{{}}}/{{{}}}", line(a), line(b)),
        Math::Index(a, b) => format!("{}_{{{}}}", line(a), line(b)),
        Math::Power(a, b) => format!("{}^{{{}}}", line(a), line(b)),
        Math::Root(a) => format!("√{{{}}}", line(a)),
    }
}

fn leaf(node: &Node) -> Math {
    match node {
        Node::Name(name) => symbol(name),
        Node::Number(value) | Node::Constant(value, ..) => number(*value),
        other => panic!("{other:?} is no leaf"),
    }
}

fn shown_as(text: &str) -> String {
    read(text).map_or_else(|| "unread".to_owned(), |node| line(&formula(&node, &leaf)))
}

#[test]
fn formulas_are_set_as_they_are_read() {
    for (text, expected) in [
        ("first / flow", "{first}/{flow}"),
        ("(V_1 + V_2) / Q", "{V_{1} + V_{2}}/{Q}"),
        ("(a + b) * c", "( a + b ) · c"),
        ("a - (b - c)", "a − ( b − c )"),
        ("a - b - c", "a − b − c"),
        ("a / b / c", "{{a}/{b}}/{c}"),
        ("(a / b).powf(1.75)", "( {a}/{b} )^{1.75}"),
        ("a.powi(2)", "a^{2}"),
        ("(-a).exp()", "exp ( − a )"),
        ("(a * b).sqrt()", "√{a · b}"),
        ("a.min(b)", "min ( a ; b )"),
        ("a.log10()", "log_{10} ( a )"),
        ("a * (-b)", "a · ( − b )"),
        ("2.0_f64.powf(x)", "2^{x}"),
        ("1e-7 * x", "1 × 10^{−7} · x"),
    ] {
        assert_eq!(shown_as(text), expected, "{text}");
    }
}

#[test]
fn a_number_with_a_sign_or_a_power_of_ten_keeps_its_parentheses() {
    let value_of = |value: f64| {
        move |node: &Node| match node {
            Node::Name(_) => number(value),
            other => leaf(other),
        }
    };
    let squared = read("x.powi(2)").unwrap();
    assert_eq!(line(&formula(&squared, &value_of(-3.0))), "( −3 )^{2}");
    assert_eq!(line(&formula(&squared, &value_of(2.5e-8))), "( 2.5 × 10^{−8} )^{2}");
    let difference = read("a - x").unwrap();
    assert_eq!(line(&formula(&difference, &value_of(-3.0))), "−3 − ( −3 )");
}

#[test]
fn indices_of_words_and_of_numbers() {
    assert_eq!(
        symbol("V_1"),
        Math::Index(Box::new(Math::Name("V".into())), Box::new(Math::Number("1".into())))
    );
    assert_eq!(
        symbol("A_0,needed"),
        Math::Index(Box::new(Math::Name("A".into())), Box::new(Math::Text("0,needed".into())))
    );
    assert_eq!(symbol("Δp"), Math::Name("Δp".into()));
}
