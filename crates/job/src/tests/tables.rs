use crate::job::JOB;
use crate::shapes::SHAPES;
use crate::shop::SHOP;
use crate::table::{Case, Field, Kind, Need};
use crate::*;
use serde_json::Value;

/// Calls `each` with the fields of every mapping that is reached from `fields`, and the schema that belongs to it; `tag` is
/// the field that tells which case a mapping is, empty where none does.
fn walk(
    fields: &[&'static [Field]],
    schema: &Value,
    tag: &'static str,
    each: &mut impl FnMut(Vec<&'static str>, &Value),
) {
    let known = fields.iter().flat_map(|table| table.iter());
    let used: Vec<_> = known.collect();
    let mut names: Vec<_> = used.iter().map(|field| field.name).collect();
    if !tag.is_empty() {
        names.push(tag);
    }
    each(names, schema);
    for field in used {
        kind(&field.kind, &schema["properties"][field.name], each);
    }
}

fn kind(of: &'static Kind, schema: &Value, each: &mut impl FnMut(Vec<&'static str>, &Value)) {
    let made = |cases: &'static [Case]| cases.iter();
    match of {
        Kind::Group(fields) => walk(&[fields], schema, "", each),
        Kind::GroupOrNone(fields) | Kind::LengthOrGroup(fields) | Kind::FileOr(fields) => {
            walk(&[fields], &schema["oneOf"][1], "", each)
        }
        Kind::Named(_, inner) => kind(inner, &schema["additionalProperties"], each),
        Kind::List(inner) | Kind::Tuple(_, inner) => kind(inner, &schema["items"], each),
        Kind::Cases(cases) => {
            for (i, case) in made(cases.cases).enumerate() {
                walk(&[cases.common, case.fields], &schema["oneOf"][i], cases.tag, each);
            }
        }
        Kind::OneCase(cases) => {
            for case in made(cases.cases) {
                walk(
                    &[cases.common, case.fields],
                    &schema["properties"][case.name],
                    "",
                    each,
                );
            }
        }
        _ => {}
    }
}

#[test]
fn the_schema_has_the_readers_fields_and_no_others() {
    for (table, schema, least) in [(JOB, schema_job(), 20), (SHOP, schema_shop(), 12)] {
        let mut count = 0;
        walk(&[table], &schema, "", &mut |mut names, schema| {
            let properties = schema["properties"]
                .as_object()
                .expect("a mapping has properties");
            let mut said: Vec<_> = properties.keys().map(String::as_str).collect();
            names.sort_unstable();
            said.sort_unstable();
            assert_eq!(said, names);
            assert_eq!(schema["additionalProperties"], false);
            for property in properties.values() {
                assert!(
                    property["description"]
                        .as_str()
                        .is_some_and(|help| help.len() > 3),
                    "{property}"
                );
            }
            count += 1;
        });
        assert!(count >= least, "{count} mappings only");
    }
}

#[test]
fn what_the_schema_asks_for_the_reader_misses() {
    let Err(Faults(faults)) = read_job("job.yaml", "units: mm\n") else {
        panic!("a job needs more")
    };
    let mut missing: Vec<_> = faults.iter().map(|fault| fault.field.clone()).collect();
    missing.sort_unstable();
    let schema = schema_job();
    let mut required: Vec<_> = schema["required"]
        .as_array()
        .unwrap()
        .iter()
        .map(|v| v.as_str().unwrap().to_owned())
        .collect();
    required.sort_unstable();
    assert_eq!(missing, required);
    assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
    assert_eq!(schema["properties"]["tolerance"]["default"], "0.02 mm");
}

#[test]
fn two_of_three_sizes_are_every_pair() {
    let schema = schema_job();
    let shapes = schema["properties"]["arches"]["additionalProperties"]["oneOf"]
        .as_array()
        .unwrap();
    assert_eq!(shapes.len(), Shape::MAKEABLE.len());
    let pairs: Vec<_> = shapes[0]["oneOf"]
        .as_array()
        .unwrap()
        .iter()
        .map(|pair| pair["required"].to_string())
        .collect();
    assert_eq!(
        pairs,
        [
            "[\"span\",\"rise\"]",
            "[\"span\",\"radius\"]",
            "[\"rise\",\"radius\"]"
        ]
    );
}

/// Every shape that the table calls makeable is in the list of those that can be made, and the other way round.
#[test]
fn the_makeable_shapes_are_those_of_the_table() {
    let table: Vec<_> = SHAPES.cases.iter().map(|case| case.name).collect();
    assert_eq!(table, Shape::MAKEABLE.map(Shape::name));
    assert_eq!(SHAPES.cases.len(), 20);
}

/// A shop with nothing but what must be given takes every default, so that each default is read here.
#[test]
fn every_default_can_be_read() {
    let shop = read_shop(
        "shop.yaml",
        "stock: { a: { material: mdf, sheet: [100, 50], thickness: 9 } }\n\
         bits:\n  a: { kind: straight, diameter: 6, cutting-length: 20 }\n  b: { kind: drill, diameter: 6, cutting-length: 20 }\n  \
         c: { kind: vee, diameter: 6, cutting-length: 20, angle: 1:1 }\n  d: { kind: bearing, diameter: 6, cutting-length: 20, bearing: 6 }\n\
         machines:\n  r: { kind: router, bed: [100, 100], bits: [a] }\n  d: { kind: drawing }\n",
    )
    .unwrap_or_else(|faults| panic!("{faults}"));
    let MachineSpec::Router(router) = &shop.machines["r"] else {
        panic!("a router")
    };
    assert_eq!(
        (router.decimals, router.cut, router.zero_at.clone()),
        (4, Cut::Climb, ZeroAt::NearLeft)
    );
    assert!((router.longest_radius - 10_000.0).abs() < 1e-9);
    assert!(matches!(shop.bits["c"].kind, BitKind::Vee(angle) if (angle.to_degrees() - 45.0).abs() < 1e-9));
    assert!(shop.bits["b"].plunges && !shop.bits["a"].plunges);
    assert!(matches!(&shop.machines["d"], MachineSpec::Drawing(d) if d.format == DrawingFormat::DxfR12));
}

#[test]
fn no_table_holds_a_field_twice() {
    let mut check = |mut names: Vec<&'static str>, _: &Value| {
        names.sort_unstable();
        let count = names.len();
        names.dedup();
        assert_eq!(names.len(), count, "{names:?}");
    };
    walk(&[JOB], &Value::Null, "", &mut check);
    assert!(JOB.iter().any(|field| matches!(field.need, Need::Required)));
}
