//! Sound requests made from the description alone.

use serde_json::{Map, Value, json};

/// One request of the description.
#[derive(Debug)]
pub(crate) struct Described {
    pub(crate) method: String,
    pub(crate) path: String,
    /// Name, and whether it stands in the path; else it is a query's.
    pub(crate) parameters: Vec<(String, bool)>,
    pub(crate) has_body: bool,
    schema: Option<Value>,
    schemas: Value,
}

pub(crate) fn requests() -> impl Iterator<Item = Described> {
    let text = onestrand_server::api_description();
    let description: Value = serde_json::from_str(&text).expect("a description");
    let schemas = description["components"]["schemas"].clone();
    let paths = description["paths"].as_object().expect("paths").clone();
    let all: Vec<Described> = paths
        .into_iter()
        .flat_map(|(path, methods)| {
            let methods = methods.as_object().expect("methods").clone();
            methods
                .into_iter()
                .map(move |(method, about)| (path.clone(), method, about))
        })
        .map(|(path, method, about)| Described {
            method: method.to_uppercase(),
            path,
            parameters: parameters(&about),
            has_body: about.get("requestBody").is_some(),
            schema: about
                .pointer("/requestBody/content/application~1json/schema")
                .cloned(),
            schemas: schemas.clone(),
        })
        .collect();
    assert!(all.len() > 20, "the description has its requests");
    all.into_iter()
}

fn parameters(about: &Value) -> Vec<(String, bool)> {
    let listed = about["parameters"].as_array().cloned().unwrap_or_default();
    let one = |p: &Value| {
        let name = p["name"].as_str().expect("a name").to_owned();
        (name, p["in"] == "path")
    };
    listed.iter().map(one).collect()
}

impl Described {
    /// Its address with these words, already fit for one.
    pub(crate) fn target(&self, word: impl Fn(usize, &str) -> String) -> String {
        let mut target = self.path.clone();
        let mut query = Vec::new();
        for (at, (name, in_path)) in self.parameters.iter().enumerate() {
            if *in_path {
                target = target.replace(&format!("{{{name}}}"), &word(at, name));
            } else {
                query.push(format!("{name}={}", word(at, name)));
            }
        }
        match query.is_empty() {
            true => target,
            false => format!("{target}?{}", query.join("&")),
        }
    }
}

/// A sound word for a parameter.
pub(crate) fn parameter(name: &str) -> String {
    let word = match name {
        "film" => "a-boat",
        "roll" => "R1",
        "cut" => "v1",
        "path" => "/",
        "quantity" => "50ft",
        "gauge" => "super8",
        "speed" => "18",
        "name" => "scan.mkv",
        "sheet" => "cutting-sheet",
        "paper" => "a4",
        "frames" => "1,2,3",
        "pictures" => "none",
        _ => "1",
    };
    word.to_owned()
}

/// Sound documents for a request: one for each kind of change it may hold.
pub(crate) fn body_samples(request: &Described) -> Vec<Value> {
    match &request.schema {
        Some(schema) => samples(schema, &request.schemas, "", 0),
        None => Vec::new(),
    }
}

/// How often one kind of document may hold another.
const DEEP: usize = 6;

fn samples(schema: &Value, schemas: &Value, name: &str, deep: usize) -> Vec<Value> {
    if deep > DEEP {
        return vec![Value::Null];
    }
    if let Some(reference) = schema["$ref"].as_str() {
        let named = reference.rsplit('/').next().expect("a name");
        return samples(&schemas[named], schemas, name, deep + 1);
    }
    for choice in ["oneOf", "anyOf"] {
        if let Some(kinds) = schema[choice].as_array() {
            let there = kinds.iter().filter(|k| k["type"] != "null");
            return there
                .flat_map(|k| samples(k, schemas, name, deep))
                .collect();
        }
    }
    if let Some(words) = schema["enum"].as_array() {
        return words.clone();
    }
    let is = |kind: &str| {
        schema["type"] == kind
            || schema["type"]
                .as_array()
                .is_some_and(|t| t.contains(&json!(kind)))
    };
    if is("object") {
        return objects(schema, schemas, deep);
    }
    if is("array") {
        let inner = samples(&schema["items"], schemas, name, deep + 1);
        return inner
            .into_iter()
            .take(1)
            .map(|item| json!([item]))
            .collect();
    }
    vec![word_or_number(name, is("string"), is("boolean"))]
}

/// One object for each kind of each of its fields, the others as they come
/// first.
fn objects(schema: &Value, schemas: &Value, deep: usize) -> Vec<Value> {
    let fields = schema["properties"]
        .as_object()
        .cloned()
        .unwrap_or_default();
    let kinds: Vec<(String, Vec<Value>)> = fields
        .iter()
        .map(|(name, inner)| (name.clone(), samples(inner, schemas, name, deep + 1)))
        .collect();
    let first = |all: &[Value]| all.first().cloned().unwrap_or(Value::Null);
    let plain: Map<String, Value> = kinds
        .iter()
        .map(|(n, all)| (n.clone(), first(all)))
        .collect();
    let mut all = vec![Value::Object(plain.clone())];
    for (name, kinds) in &kinds {
        for kind in kinds.iter().skip(1) {
            let mut other = plain.clone();
            other.insert(name.clone(), kind.clone());
            all.push(Value::Object(other));
        }
    }
    all
}

fn word_or_number(name: &str, is_text: bool, is_choice: bool) -> Value {
    if is_choice {
        return json!(true);
    }
    match name {
        // The newest, whatever it is by then.
        "revision" => json!(0),
        "key" => json!("KEY"),
        "in" | "first" => json!(0),
        "out" => json!(100),
        "at" | "from" if !is_text => json!(0),
        _ if !is_text => json!(1),
        "base" => json!("triacetate"),
        "fit" => json!("project"),
        "wind" => json!("A"),
        "rating" => json!("circled"),
        "join" | "usual_join" => json!("tape"),
        "effect" => json!("freeze"),
        "slate" => json!("3A-T2"),
        "setup" => json!("3A"),
        "measured" => json!("50ft"),
        "shrinkage" => json!("0.4"),
        "title" => json!("A Title"),
        "from" => json!("v1"),
        "film_speed" => json!("18"),
        other => json!(parameter(other)),
    }
}
