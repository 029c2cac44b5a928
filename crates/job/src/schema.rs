//! JSON Schema (draft 2020-12) of both files, from the tables that the reader goes by.

use crate::job::JOB;
use crate::shop::SHOP;
use crate::table::{Case, Cases, Field, Kind, LENGTH_OR_0, Need};
use crate::value::LONGEST_TEXT;
use serde_json::{Map, Value, json};

/// The schema of a job file.
pub fn schema_job() -> Value {
    schema("Job", JOB)
}

/// The schema of a shop file.
pub fn schema_shop() -> Value {
    schema("Shop", SHOP)
}

fn schema(title: &str, fields: &'static [Field]) -> Value {
    let mut schema = object(fields.iter().collect(), None);
    schema.insert(
        "$schema".to_owned(),
        json!("https://json-schema.org/draft/2020-12/schema"),
    );
    schema.insert("title".to_owned(), json!(title));
    Value::Object(schema)
}

/// A mapping of fields; `told` is the field that says which case it is.
fn object(fields: Vec<&'static Field>, told: Option<(&str, &Case)>) -> Map<String, Value> {
    let mut properties = Map::new();
    let mut must = Vec::new();
    if let Some((tag, case)) = told {
        properties.insert(
            tag.to_owned(),
            json!({ "const": case.name, "description": case.help }),
        );
        must.push(tag);
    }
    for field in fields {
        let mut property = kind(&field.kind);
        property.insert("description".to_owned(), json!(field.help));
        match field.need {
            Need::Required => must.push(field.name),
            Need::Optional | Need::Surrounding => {}
            Need::Default(text) => {
                property.insert("default".to_owned(), plain(text));
            }
        }
        properties.insert(field.name.to_owned(), Value::Object(property));
    }
    map(json!({
        "type": "object",
        "properties": properties,
        "required": must,
        "additionalProperties": false,
    }))
}

/// A default as JSON.
fn plain(text: &str) -> Value {
    serde_yaml::from_str(text).expect("a default is YAML, and JSON can hold it")
}

fn map(value: Value) -> Map<String, Value> {
    match value {
        Value::Object(map) => map,
        _ => Map::new(),
    }
}

fn kind(of: &'static Kind) -> Map<String, Value> {
    map(match of {
        Kind::Text => json!({ "type": ["string", "number"], "maxLength": LONGEST_TEXT }),
        Kind::Name(_) => json!({ "type": ["string", "number"] }),
        Kind::Length(_)
        | Kind::LengthTo(_)
        | Kind::Feed
        | Kind::Angle { .. }
        | Kind::AngleOr(_)
        | Kind::LengthOr(_)
        | Kind::Spacing => {
            json!({ "type": ["number", "string"], "examples": [of.wanted()] })
        }
        Kind::NumberOr { least, most, words } => {
            let number = json!({ "type": "number", "minimum": least, "maximum": most });
            let words = words
                .iter()
                .map(|w| json!({ "const": w.word, "description": w.help }));
            let each: Vec<_> = std::iter::once(number).chain(words).collect();
            json!({ "oneOf": each })
        }
        Kind::Density | Kind::Scale => json!({ "type": ["number", "string"], "examples": [of.wanted()] }),
        Kind::Number { least, most } => json!({ "type": "number", "minimum": least, "maximum": most }),
        Kind::Whole { least, most } => json!({ "type": "integer", "minimum": least, "maximum": most }),
        Kind::YesNo => json!({ "type": "boolean" }),
        Kind::Word(words) => {
            let each: Vec<_> = words
                .iter()
                .map(|w| json!({ "const": w.word, "description": w.help }))
                .collect();
            json!({ "oneOf": each })
        }
        Kind::Unit => json!({ "enum": ["mm", "in"] }),
        Kind::Rule => json!({ "enum": cintre_measure::Rule::ALL.map(|rule| rule.name()) }),
        Kind::Tuple(count, item) => {
            json!({ "type": "array", "items": kind(item), "minItems": count, "maxItems": count })
        }
        Kind::List(item) => json!({ "type": "array", "items": kind(item) }),
        Kind::Group(fields) => return object(fields.iter().collect(), None),
        Kind::GroupOrNone(fields) => {
            json!({ "oneOf": [{ "const": "none" }, object(fields.iter().collect(), None)] })
        }
        Kind::LengthOrGroup(fields) => {
            json!({ "oneOf": [kind(&LENGTH_OR_0), object(fields.iter().collect(), None)] })
        }
        Kind::Named(_, item) => json!({ "type": "object", "additionalProperties": kind(item) }),
        Kind::Cases(cases) => {
            let each = cases.cases.iter();
            let each: Vec<_> = each.map(|case| told(cases, case)).collect();
            json!({ "oneOf": each })
        }
        Kind::OneCase(cases) => one_case(cases),
        Kind::FileOr(fields) => {
            json!({ "oneOf": [{ "type": "string" }, object(fields.iter().collect(), None)] })
        }
    })
}

fn told(cases: &'static Cases, case: &'static Case) -> Map<String, Value> {
    let fields = cases.common.iter().chain(case.fields).collect();
    let mut object = object(fields, Some((cases.tag, case)));
    exactly(&mut object, case);
    object
}

fn one_case(cases: &'static Cases) -> Value {
    let mut properties = Map::new();
    for case in cases.cases {
        let mut object = object(cases.common.iter().chain(case.fields).collect(), None);
        exactly(&mut object, case);
        object.insert("description".to_owned(), json!(case.help));
        properties.insert(case.name.to_owned(), Value::Object(object));
    }
    json!({
        "type": "object",
        "properties": properties,
        "minProperties": 1,
        "maxProperties": 1,
        "additionalProperties": false,
    })
}

/// So many of some fields: every choice of them, and no field more.
fn exactly(object: &mut Map<String, Value>, case: &Case) {
    let Some((count, of)) = case.exactly else { return };
    let choices: Vec<_> = choices(of, count)
        .into_iter()
        .map(|must| {
            let others: Vec<_> = of.iter().filter(|name| !must.contains(name)).collect();
            let without: Vec<_> = others.iter().map(|name| json!({ "required": [name] })).collect();
            json!({ "required": must, "not": { "anyOf": without } })
        })
        .collect();
    object.insert("oneOf".to_owned(), json!(choices));
}

fn choices<'n>(of: &[&'n str], count: usize) -> Vec<Vec<&'n str>> {
    match (count, of) {
        (0, _) => vec![Vec::new()],
        (_, []) => Vec::new(),
        (_, [first, rest @ ..]) => {
            let with = choices(rest, count - 1).into_iter();
            let mut all: Vec<_> = with.map(|tail| [&[*first][..], &tail].concat()).collect();
            all.extend(choices(rest, count));
            all
        }
    }
}
