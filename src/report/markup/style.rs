//! The style that every page shares. Shades are those of the palette.

/// A text as a CSS string; every character that could end it, or the style, is written by its
/// number.
pub(super) fn css_string(text: &str) -> String {
    let mut out = String::from("\"");
    for c in text.chars() {
        if c.is_alphanumeric() || matches!(c, ' ' | ',' | '.' | ':' | '-') {
            out.push(c);
        } else {
            out.push_str(&format!("\\{:x} ", u32::from(c)));
        }
    }
    out.push('"');
    out
}

/// For every page, on a screen and on paper.
pub(super) const COMMON: &str = r#"
:root { color-scheme: light }
* { box-sizing: border-box }
html { -webkit-text-size-adjust: 100% }
body { margin: 0 auto; padding: 1rem; max-width: 62rem; background: #ffffff; color: #17212b;
  font: 1rem/1.42 Arial, "Liberation Sans", "Noto Sans", "DejaVu Sans", sans-serif; overflow-wrap: anywhere }
h1, h2, h3, h4 { line-height: 1.2; margin: 0; break-after: avoid; font-weight: 700 }
h1 { font-size: 1.7rem; border-bottom: 4px solid #17212b; padding-bottom: .3rem }
h2 { font-size: 1.35rem; margin-top: 1.6rem }
h3 { font-size: 1.08rem; margin-top: 1.1rem; color: #1d4f73; border-bottom: 1px solid #77838f; padding-bottom: .15rem }
h4 { font-size: .95rem }
p { margin: .4rem 0; orphans: 2; widows: 2 }
ul, ol, dl, dd { margin: .3rem 0 }
a { color: #1d4f73 }
.quiet, .made, .note, .more, .at { color: #46525e; font-size: .86rem }
.at { overflow-wrap: anywhere }
.hash { font-family: "DejaVu Sans Mono", monospace; font-size: .92em }
.figure { white-space: nowrap }
.notice { border: 2px solid #17212b; padding: .5rem .7rem }
.grade { font-style: italic }
.sources { font-size: .82rem; padding-left: 2.2em; margin: .5rem 0 }
.sources .at, .sources .grade { font-size: inherit }
.sources li { margin: .12rem 0; break-inside: avoid }
.authorities > div { display: grid; grid-template-columns: minmax(8em, 12em) 1fr; gap: .6em; margin: .2rem 0 }
.authorities dt { font-weight: 700 }
.authorities dd { margin: 0 }
.wide { overflow-x: auto; margin: .6rem 0 }
.wide svg { display: block; width: 100%; min-width: 36rem; height: auto }
svg text { font-family: Arial, "Liberation Sans", "Noto Sans", "DejaVu Sans", sans-serif }
table.plain { border-collapse: collapse; font-size: .9rem; width: 100% }
table.plain th, table.plain td { border-bottom: 1px solid #77838f; padding: .2rem .45rem; text-align: left; vertical-align: top }
table.plain th { overflow-wrap: break-word }
table.plain thead th { border-bottom: 2px solid #17212b }
table.plain caption { text-align: left; font-weight: 700; padding: .3rem 0 }
figure { margin: .6rem 0 }
.wide { break-inside: avoid; break-after: avoid }
.wide + .wide, .wide:has(+ .wide) { break-after: auto }
figcaption { break-before: avoid; font-size: .86rem; color: #46525e }
input[type=checkbox] { width: 1em; height: 1em; margin: .2em .5em 0 0; flex: none; accent-color: #1d4f73 }
@media (max-width: 34rem) {
  body { padding: .6rem }
  .authorities > div { grid-template-columns: 1fr; gap: 0 }
}
@page { margin: 13mm 13mm 16mm;
  @bottom-right { content: "page " counter(page) " of " counter(pages); font: 8pt Arial, "Liberation Sans", sans-serif; color: #46525e }
  @bottom-left { font: 8pt Arial, "Liberation Sans", sans-serif; color: #46525e }
}
@media print {
  html { font-size: 8.6pt }
  body { padding: 0; max-width: none; line-height: 1.27 }
  h1 { font-size: 1.6rem } h2 { font-size: 1.3rem; margin-top: .8rem } h3 { font-size: 1.08rem; margin-top: .6rem }
  p { margin: .2rem 0 }
  a { color: inherit; text-decoration: none }
  .wide { overflow: visible } .wide svg { min-width: 0 }
  .screen { display: none }
  .closing li { break-inside: avoid }
  .closing { margin-top: .4rem } .closing h2 { margin-top: 0; font-size: 1.15rem }
  figure .wide svg { max-width: 5.2in }
  .notice { padding: .2rem .5rem }
  * { -webkit-print-color-adjust: exact; print-color-adjust: exact }
}
"#;
