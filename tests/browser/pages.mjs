// Makes the pages that are tested, and opens them.

import { execFileSync } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const here = dirname(fileURLToPath(import.meta.url));
const root = resolve(here, "../..");
const out = join(here, "out");
const boat = ["--kind", "boat", "--use", "private", "--on", "2026-12-01"];
const band = ["--gross", "0 lb to 10,000 lb"];

/** The pages by name, each with the arguments that make it. */
export const PAGES = {
  "sheet-nebraska": ["sheet", "Nebraska", ...boat, ...band],
  "sheet-california-metric": ["sheet", "California", ...boat, ...band, "--units", "metric"],
  "sheet-two-regions": ["sheet", "US-NE", "CA-ON", ...boat, ...band, "--practice"],
  "sheet-open": ["sheet", "Texas"],
  "compare-brakes": ["compare", "US", "CA", "--topic", "brakes", ...boat],
  "compare-chains": ["compare", "Nebraska", "Iowa", "Ontario", "--topic", "safety-chains", ...boat, "--units", "us"],
  "rig-measured": ["check", "tests/rigs/kiln-trailer-measured.yaml", "--in", "US-NE,US-CO"],
  "rig-demo": ["check", "tests/rigs/kiln-trailer.yaml", "--in", "US-NE"],
  "rig-unmeasured": ["check", "tests/rigs/kiln-trailer-unmeasured.yaml", "--in", "US-NE", "--units", "metric"],
  "rig-hostile": ["check", "tests/rigs/hostile-names.yaml", "--in", "US-NE"],
};

/** Writes every page and returns where it is and what it holds. */
export function makePages() {
  mkdirSync(out, { recursive: true });
  const made = {};
  for (const [name, args] of Object.entries(PAGES)) {
    let html;
    try {
      html = run([...args, "--format", "html"]);
    } catch (error) {
      // Status 1 says that a rule is broken, which is no failure of the page.
      if (error.status !== 1) throw error;
      html = error.stdout;
    }
    const file = join(out, `${name}.html`);
    writeFileSync(file, html);
    made[name] = { file, html, url: pathToFileURL(file).href };
  }
  return made;
}

function run(args) {
  return execFileSync(process.env.PINTLE, args, { cwd: root, encoding: "utf8", maxBuffer: 1 << 28 });
}

/** Starts the browser. */
export function launch() {
  const path = process.env.CHROMIUM ?? "chromium";
  const executablePath = path.includes("/") ? path : execFileSync("which", [path], { encoding: "utf8" }).trim();
  return chromium.launch({ executablePath, args: ["--no-sandbox"] });
}

/** Opens a page at a width and gathers whatever it complains of or asks the network for. */
export async function open(browser, page, { width = 1000, height = 900, media = "screen" } = {}) {
  const context = await browser.newContext({ viewport: { width, height } });
  const tab = await context.newPage();
  const complaints = [];
  tab.on("console", (m) => complaints.push(`console ${m.type()}: ${m.text()}`));
  tab.on("pageerror", (e) => complaints.push(`error: ${e.message}`));
  tab.on("dialog", (d) => {
    complaints.push(`dialog: ${d.message()}`);
    d.dismiss();
  });
  tab.on("request", (r) => {
    if (r.url() !== page.url) complaints.push(`request: ${r.url()}`);
  });
  await tab.emulateMedia({ media });
  await tab.goto(page.url);
  return { tab, complaints, close: () => context.close() };
}

/** The folder for what the tests leave to look at. */
export const folder = out;
