//! Regions: ISO 3166-2 codes of the United States and Canada, with their names.

/// A country or one of its parts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Region {
    /// The ISO 3166 code: `US-NE`.
    pub code: &'static str,
    /// The name in English.
    pub name: &'static str,
}

/// Every region, the countries first, each country's parts by code.
pub const REGIONS: &[Region] = &[
    r("US", "United States"),
    r("CA", "Canada"),
    r("US-AK", "Alaska"),
    r("US-AL", "Alabama"),
    r("US-AR", "Arkansas"),
    r("US-AZ", "Arizona"),
    r("US-CA", "California"),
    r("US-CO", "Colorado"),
    r("US-CT", "Connecticut"),
    r("US-DC", "District of Columbia"),
    r("US-DE", "Delaware"),
    r("US-FL", "Florida"),
    r("US-GA", "Georgia"),
    r("US-HI", "Hawaii"),
    r("US-IA", "Iowa"),
    r("US-ID", "Idaho"),
    r("US-IL", "Illinois"),
    r("US-IN", "Indiana"),
    r("US-KS", "Kansas"),
    r("US-KY", "Kentucky"),
    r("US-LA", "Louisiana"),
    r("US-MA", "Massachusetts"),
    r("US-MD", "Maryland"),
    r("US-ME", "Maine"),
    r("US-MI", "Michigan"),
    r("US-MN", "Minnesota"),
    r("US-MO", "Missouri"),
    r("US-MS", "Mississippi"),
    r("US-MT", "Montana"),
    r("US-NC", "North Carolina"),
    r("US-ND", "North Dakota"),
    r("US-NE", "Nebraska"),
    r("US-NH", "New Hampshire"),
    r("US-NJ", "New Jersey"),
    r("US-NM", "New Mexico"),
    r("US-NV", "Nevada"),
    r("US-NY", "New York"),
    r("US-OH", "Ohio"),
    r("US-OK", "Oklahoma"),
    r("US-OR", "Oregon"),
    r("US-PA", "Pennsylvania"),
    r("US-RI", "Rhode Island"),
    r("US-SC", "South Carolina"),
    r("US-SD", "South Dakota"),
    r("US-TN", "Tennessee"),
    r("US-TX", "Texas"),
    r("US-UT", "Utah"),
    r("US-VA", "Virginia"),
    r("US-VT", "Vermont"),
    r("US-WA", "Washington"),
    r("US-WI", "Wisconsin"),
    r("US-WV", "West Virginia"),
    r("US-WY", "Wyoming"),
    r("CA-AB", "Alberta"),
    r("CA-BC", "British Columbia"),
    r("CA-MB", "Manitoba"),
    r("CA-NB", "New Brunswick"),
    r("CA-NL", "Newfoundland and Labrador"),
    r("CA-NS", "Nova Scotia"),
    r("CA-NT", "Northwest Territories"),
    r("CA-NU", "Nunavut"),
    r("CA-ON", "Ontario"),
    r("CA-PE", "Prince Edward Island"),
    r("CA-QC", "Quebec"),
    r("CA-SK", "Saskatchewan"),
    r("CA-YT", "Yukon"),
];

const fn r(code: &'static str, name: &'static str) -> Region {
    Region { code, name }
}

impl Region {
    /// The region of that code or name; case, spaces and hyphens are ignored.
    #[must_use]
    pub fn find(text: &str) -> Option<&'static Region> {
        let wanted = fold(text);
        REGIONS
            .iter()
            .find(|r| fold(r.code) == wanted || fold(r.name) == wanted)
    }

    /// Whether this is a whole country.
    #[must_use]
    pub fn is_country(&self) -> bool {
        self.code.len() == 2
    }

    /// Whether the other region lies in this one, or is this one.
    #[must_use]
    pub fn contains(&self, other: &Region) -> bool {
        other.code == self.code
            || (self.is_country() && other.code.starts_with(self.code) && !other.is_country())
    }

    /// The region's name for the code, or the code itself where it is not known.
    #[must_use]
    pub fn name_of(code: &str) -> &str {
        Region::find(code).map_or(code, |r| r.name)
    }
}

fn fold(text: &str) -> String {
    text.chars()
        .filter(|c| c.is_alphanumeric())
        .flat_map(char::to_lowercase)
        .collect()
}
