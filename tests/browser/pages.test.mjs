// What the pages must do in a browser and on paper.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, describe, test } from "node:test";
import { HtmlValidate } from "html-validate";
import { PAGES, folder, launch, makePages, open } from "./pages.mjs";

let browser;
let pages;

before(async () => {
  pages = makePages();
  browser = await launch();
});
after(async () => browser?.close());

/** Text that reaches beyond the width it has. Runs in the page. */
function overflowing(width) {
  const found = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    if (!node.data.trim()) continue;
    const parent = node.parentElement;
    // What scrolls by itself may be wider; drawings are looked at apart.
    if (parent.closest("style, title, svg")) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    for (const box of range.getClientRects()) {
      if (box.width > 0 && (box.right > width + 0.5 || box.left < -0.5)) {
        found.push(`${node.data.trim().slice(0, 60)} (${box.left} to ${box.right})`);
      }
    }
  }
  return found;
}

/** Text of drawings that is cut off, or that lies upon other text. Runs in the page. */
function drawingFaults() {
  const faults = [];
  for (const svg of document.querySelectorAll("svg[role=img]")) {
    const frame = svg.viewBox.baseVal;
    const boxes = [...svg.querySelectorAll("text")].map((t) => [t.textContent.trim(), t.getBBox()]);
    for (const [text, b] of boxes) {
      if (b.x < -1 || b.y < -1 || b.x + b.width > frame.width + 1 || b.y + b.height > frame.height + 2) {
        faults.push(`cut off: ${text}`);
      }
    }
    for (let i = 0; i < boxes.length; i += 1) {
      for (let j = i + 1; j < boxes.length; j += 1) {
        const [a, b] = [boxes[i][1], boxes[j][1]];
        const wide = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
        // A line of text is taller than its letters.
        const tall = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y);
        if (wide > 1 && tall > 3.5) faults.push(`upon each other: ${boxes[i][0]} / ${boxes[j][0]}`);
      }
    }
  }
  return faults;
}

async function paper(tab, format, name) {
  // An emulated screen would print as a screen.
  await tab.emulateMedia({ media: null });
  const pdf = await tab.pdf({ format, preferCSSPageSize: false, displayHeaderFooter: false });
  const file = join(folder, `${name}-${format}.pdf`);
  writeFileSync(file, pdf);
  const text = execFileSync("pdftotext", ["-layout", file, "-"], { encoding: "utf8" });
  return text.split("\f").slice(0, -1);
}

async function tree(tab) {
  const session = await tab.context().newCDPSession(tab);
  const { nodes } = await session.send("Accessibility.getFullAXTree");
  const of = (role) => nodes.filter((n) => !n.ignored && n.role?.value === role);
  const level = (n) => n.properties?.find((p) => p.name === "level")?.value.value;
  return {
    headings: of("heading").map((n) => ({ name: n.name.value, level: level(n) })),
    boxes: of("checkbox").map((n) => n.name.value),
    images: of("image").map((n) => n.name.value),
  };
}

for (const name of Object.keys(PAGES)) {
  describe(name, () => {
    test("is valid HTML", async () => {
      const validator = new HtmlValidate({
        extends: ["html-validate:recommended"],
        rules: {
          // A matter of taste, not of validity.
          "long-title": "off",
          // The head of a printed page is repeated by a table that has no other part.
          "prefer-native-element": ["error", { exclude: ["presentation", "img", "group"] }],
        },
      });
      const report = await validator.validateString(pages[name].html);
      const faults = report.results.flatMap((r) => r.messages);
      const told = faults.map((f) => `${f.line}:${f.column} ${f.ruleId}: ${f.message}`);
      assert.deepEqual([...new Set(told)].slice(0, 10), []);
    });

    test("opens without complaint, and runs or fetches nothing", async () => {
      const { tab, complaints, close } = await open(browser, pages[name]);
      assert.equal(await tab.locator("html").getAttribute("lang"), "en");
      assert.equal(await tab.evaluate(() => document.scripts.length), 0);
      assert.deepEqual(complaints, []);
      await tab.screenshot({ path: join(folder, `${name}.png`), fullPage: true });
      await close();
    });

    for (const [what, options] of [
      ["320 px", { width: 320 }],
      ["the width of Letter paper", { width: 717, media: "print" }],
      ["the width of A4 paper", { width: 695, media: "print" }],
    ]) {
      test(`keeps its text within ${what}`, async () => {
        const { tab, close } = await open(browser, pages[name], options);
        assert.deepEqual(await tab.evaluate(overflowing, options.width), []);
        const wide = await tab.evaluate(() => document.documentElement.scrollWidth);
        assert.ok(wide <= options.width, `the page is ${wide} px wide`);
        await close();
      });
    }

    test("draws text whole, and none upon other text", async () => {
      const { tab, close } = await open(browser, pages[name]);
      assert.deepEqual(await tab.evaluate(drawingFaults), []);
      await close();
    });

    test("prints, each page with its foot", async () => {
      const { tab, close } = await open(browser, pages[name]);
      for (const format of ["Letter", "A4"]) {
        const sheets = await paper(tab, format, name);
        assert.ok(sheets.length > 0);
        sheets.forEach((text, n) => {
          assert.match(text, new RegExp(`page ${n + 1} of ${sheets.length}`), `${format}, page ${n + 1}`);
          assert.ok(text.trim().split(/\s+/).length > 25, `${format}, page ${n + 1} is all but empty`);
        });
      }
      await close();
    });

    test("has its headings, tick boxes and pictures in the accessibility tree", async () => {
      const { tab, close } = await open(browser, pages[name]);
      const { headings, boxes, images } = await tree(tab);
      const inputs = await tab.locator("input[type=checkbox]").count();
      assert.equal(headings.length, await tab.locator("h1, h2, h3, h4, h5, h6").count());
      assert.equal(headings.filter((h) => h.level === 1).length, 1);
      assert.ok(headings.every((h) => h.name));
      assert.equal(boxes.length, inputs);
      assert.ok(boxes.every((b) => b && b.length > 10), "every tick box says what is ticked");
      assert.equal(images.length, await tab.locator("svg[role=img]").count());
      assert.ok(images.every((i) => i && i.length > 20), "every picture has words");
      if (name.startsWith("sheet")) assert.ok(inputs > 5);
      await close();
    });
  });
}

describe("the demo sheet", () => {
  test("fits two Letter pages and two A4 pages, each with the region", async () => {
    const { tab, close } = await open(browser, pages["sheet-nebraska"]);
    for (const format of ["Letter", "A4"]) {
      const sheets = await paper(tab, format, "sheet-nebraska");
      assert.ok(sheets.length <= 2, `${format}: ${sheets.length} pages`);
      for (const text of sheets) assert.match(text, /Nebraska: boat trailers, private use/);
    }
    await close();
  });

  test("can be ticked by its label, from the keyboard too", async () => {
    const { tab, close } = await open(browser, pages["sheet-nebraska"]);
    const box = tab.locator("input[type=checkbox]").first();
    await tab.locator("label").first().click();
    assert.equal(await box.isChecked(), true);
    await box.focus();
    await tab.keyboard.press("Space");
    assert.equal(await box.isChecked(), false);
    await close();
  });
});

describe("two regions", () => {
  test("begin on pages of their own, each with its name at head and foot", async () => {
    const { tab, close } = await open(browser, pages["sheet-two-regions"]);
    const sheets = await paper(tab, "Letter", "sheet-two-regions");
    const of = (text) => ["Nebraska", "Ontario", "Common practice"].filter((r) => text.includes(`${r}: boat trailers`));
    const order = sheets.map(of);
    order.forEach((names, n) => assert.equal(names.length, 1, `page ${n + 1}: ${names}`));
    assert.deepEqual([...new Set(order.flat())], ["Nebraska", "Ontario", "Common practice"]);
    await close();
  });
});

describe("a hostile rig", () => {
  test("stays text", async () => {
    const { tab, complaints, close } = await open(browser, pages["rig-hostile"]);
    assert.equal(await tab.evaluate(() => document.images.length + document.scripts.length), 0);
    assert.match(await tab.locator("h1").innerText(), /<script>alert\('rig'\)<\/script>/);
    assert.deepEqual(complaints, []);
    await close();
  });
});
