//! A new pack to begin from.

use super::regions::Region;

/// A commented pack for a region, with one rule to be replaced. It passes `packs check` as it is.
#[must_use]
pub fn skeleton(region: &Region, today: &str) -> String {
    let id = pack_id(region);
    let (country, _) = region.code.split_once('-').unwrap_or((region.code, ""));
    let within = match (country, region.is_country()) {
        (_, true) => String::new(),
        ("US", false) => "within: us-federal\n".to_owned(),
        (_, false) => "within: ca-federal\n".to_owned(),
    };
    format!(
        r#"# yaml-language-server: $schema=../../schema/pack.schema.json
# Rules of {name}. Every figure comes from a text that you have read; say how well you read it.
pack: {id}
format: 1
version: 0.1.0
region: {code}
{within}title: {name}
authority:
  name: the office that answers questions about these rules
  # web: https://…

# Terms that the law defines, as named conditions. A rule uses one with `is: small-trailer`.
definitions:
  small-trailer:
    trailer.kind: {{one_of: [utility, boat]}}

rules:
  # Replace this rule by one of your own. One duty, one rule.
  - id: brakes-by-weight
    topic: brakes
    # In your own words, with the law's own figures.
    says: A utility or boat trailer of more than 3,000 lb with its load needs brakes.
    # `doubt` turns a breach into something to confirm. Take it out when you have read the text.
    doubt: This rule is only an example; no law was read for it.
    # When the rule applies. All lines must hold; `pintle facts WORD` lists the facts.
    when:
      is: small-trailer
      # at_least 3,000 lb is "3,000 lb or more"; more_than 3,000 lb is "exceeding 3,000 lb".
      trailer.gross_weight: {{more_than: 3,000 lb}}
    # When it does not apply after all: the exemptions.
    unless:
      use: farm
    # What must hold.
    must:
      trailer.has_brakes: yes
    sources:
      # read: text | excerpt | secondary | memory
      - {{cite: Example Code § 1, read: memory, on: {today}}}
    # Cases from the text, not from the rule: on each side of the threshold, each kind, each exemption.
    cases:
      - {{given: {{trailer.kind: boat, use: private, trailer.gross_weight: 3,001 lb, trailer.has_brakes: no}}, expect: confirm}}
      - {{given: {{trailer.kind: boat, use: private, trailer.gross_weight: 3,001 lb, trailer.has_brakes: yes}}, expect: met}}
      - {{given: {{trailer.kind: boat, use: private, trailer.gross_weight: 3,000 lb, trailer.has_brakes: no}}, expect: does-not-apply}}
      - {{given: {{trailer.kind: utility, use: private, trailer.gross_weight: 4,000 lb, trailer.has_brakes: no}}, expect: confirm}}
      - {{given: {{trailer.kind: camper, use: private, trailer.gross_weight: 4,000 lb, trailer.has_brakes: no}}, expect: does-not-apply}}
      - {{given: {{trailer.kind: boat, use: farm, trailer.gross_weight: 4,000 lb, trailer.has_brakes: no}}, expect: does-not-apply}}

# What the sources say that is no duty of a rig, or leave unsettled.
notes: []

# Provisions that you read and left out, with the reason.
left_out: []
"#,
        name = region.name,
        code = region.code,
    )
}

/// The id of a region's own pack.
#[must_use]
pub fn pack_id(region: &Region) -> String {
    match region.code {
        "US" => "us-federal".to_owned(),
        "CA" => "ca-federal".to_owned(),
        code => code.to_lowercase(),
    }
}
