// What is wrong with how the page is built, whatever its size: sentences, none where all is well.
(() => {
  const faults = [];
  const all = (selector) => [...document.querySelectorAll(selector)];
  if (!root().lang) faults.push("its language is not said");
  if (!document.title.trim()) faults.push("it has no title");
  function root() { return document.documentElement; }
  if (all("script, iframe, object, embed, link, form, base").length) faults.push("it holds more than words and pictures");
  for (const element of all("*")) {
    for (const { name, value } of element.attributes) {
      if (name.startsWith("on")) faults.push(`a script hangs on <${element.tagName}>: ${name}`);
      const own = value.startsWith("#") || value.startsWith("http://www.w3.org/");
      if (["href", "src", "xlink:href", "srcset", "action"].includes(name) && !own) faults.push(`it points away: ${value}`);
    }
  }
  const view = all("meta[name=viewport]").map((meta) => meta.content).join();
  if (!view.includes("width=device-width")) faults.push("a phone would show it as a wide page");
  if (/user-scalable=no|maximum-scale/.test(view)) faults.push("it cannot be drawn larger with two fingers");
  const ids = all("[id]").map((element) => element.id);
  if (new Set(ids).size !== ids.length) faults.push("a name is given to two places");
  for (const a of all("a")) {
    if (!ids.includes(decodeURIComponent(a.hash.slice(1)))) faults.push(`a way leads nowhere: ${a.textContent}`);
  }
  const levels = all("h1, h2, h3, h4, h5, h6").map((heading) => [Number(heading.tagName[1]), heading.textContent.trim()]);
  if (levels.filter(([level]) => level === 1).length !== 1 || !levels.length || levels[0][0] !== 1) {
    faults.push("it has not one first heading");
  }
  levels.forEach(([level, words], i) => {
    if (!words) faults.push("a heading is empty");
    if (i && level > levels[i - 1][0] + 1) faults.push(`a level is left out before ${words}`);
  });
  for (const table of all("table")) {
    if (!table.caption || !table.caption.textContent.trim()) faults.push("a table has no caption");
    const cells = [...table.querySelectorAll("th")];
    if (!cells.length || cells.some((cell) => !cell.scope)) faults.push("a table's heads do not say what they head");
    const counts = new Set([...table.rows].map((row) => row.cells.length));
    if (counts.size > 1) faults.push("a table's rows are of different lengths");
  }
  if (!all("main").length) faults.push("its main part is not marked");
  // Everything that holds figures, with the words that stand before it.
  const first = document.querySelector("table, dl, figure, svg");
  let before = "";
  if (first) {
    const range = document.createRange();
    range.setStart(document.body, 0);
    range.setEndBefore(first);
    before = range.toString();
  }
  return { faults, before, words: document.body.textContent, tables: all("table").length, pictures: all("svg, img").length,
    headings: levels.length };
})()
