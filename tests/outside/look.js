// What is wrong with the page as it is shown now: sentences, none where all is well.
(() => {
  const faults = [];
  const tell = (what, node) => {
    const element = node.nodeType === Node.TEXT_NODE ? node.parentElement : node;
    const words = (node.textContent || "").trim().replace(/\s+/g, " ").slice(0, 40);
    faults.push(`${what}: <${element.tagName.toLowerCase()}> ${words}`);
  };
  const root = document.documentElement;
  const wide = root.clientWidth;
  if (root.scrollWidth > wide) faults.push(`it is ${root.scrollWidth} wide in a window of ${wide}`);

  const style = (element) => getComputedStyle(element);
  // What moves about in a box of its own is cut off by that box, and only that.
  const box = (element) => {
    for (let e = element.parentElement; e; e = e.parentElement) {
      if (["auto", "scroll"].includes(style(e).overflowX)) return e;
    }
    return null;
  };
  const unseen = (element) => {
    for (let e = element; e; e = e.parentElement) {
      const s = style(e);
      if (s.display === "none" || s.visibility !== "visible" || s.clipPath !== "none") return true;
    }
    return false;
  };
  const PIXEL = 1;
  for (const element of document.body.querySelectorAll("*")) {
    if (element.closest("svg") && element.tagName !== "svg") continue;
    if (unseen(element) || box(element)) continue;
    const r = element.getBoundingClientRect();
    if (r.width && (r.left < -PIXEL || r.right > wide + PIXEL)) tell("it runs out of the window", element);
    const s = style(element);
    if (s.overflowX === "hidden" && element.scrollWidth > element.clientWidth) tell("it is cut off", element);
    if (s.overflowX === "visible" && s.display !== "inline" && element.tagName !== "svg"
      && element.scrollWidth > element.clientWidth + PIXEL && element.clientWidth) tell("it runs out of its box", element);
  }

  // Blocks one after the other.
  for (const parent of document.body.querySelectorAll("*")) {
    if (parent.closest("svg")) continue;
    const blocks = [...parent.children].filter((e) => !unseen(e) && !style(e).display.startsWith("inline")
      && style(e).position === "static").map((e) => [e, e.getBoundingClientRect()]).filter(([, r]) => r.width && r.height);
    for (let i = 1; i < blocks.length; i++) {
      const [a, b] = [blocks[i - 1][1], blocks[i][1]];
      if (Math.min(a.right, b.right) - Math.max(a.left, b.left) > PIXEL
        && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > PIXEL) tell("it lies over what stands before it", blocks[i][0]);
    }
  }

  // Words over words and pictures.
  const boxes = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    if (!node.textContent.trim() || unseen(node.parentElement)) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    for (const r of range.getClientRects()) if (r.width > PIXEL) boxes.push([node, r]);
    contrast(node);
  }
  for (const node of document.body.querySelectorAll("svg, input, img")) {
    if (!unseen(node)) boxes.push([node, node.getBoundingClientRect()]);
  }
  boxes.sort((a, b) => a[1].top - b[1].top);
  // Letters do not fill the whole height of their boxes.
  const SLACK = 3;
  for (let i = 0; i < boxes.length; i++) {
    for (let j = i + 1; j < boxes.length && boxes[j][1].top < boxes[i][1].bottom - SLACK; j++) {
      const [[one, a], [two, b]] = [boxes[i], boxes[j]];
      if (one !== two && Math.min(a.right, b.right) - Math.max(a.left, b.left) > PIXEL
        && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > SLACK) tell("it lies over other words", two);
    }
  }

  function contrast(node) {
    const numbers = (colour) => (colour.match(/[\d.]+/g) || []).map(Number);
    const light = (colour) => {
      const [r, g, b] = numbers(colour).slice(0, 3).map((v) => {
        const part = v / 255;
        return part <= 0.03928 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    let ground = "rgb(255, 255, 255)";
    for (let e = node.parentElement; e; e = e.parentElement) {
      const colour = style(e).backgroundColor;
      const clear = numbers(colour)[3];
      if (clear === undefined || clear === 1) { ground = colour; break; }
    }
    const [a, b] = [light(style(node.parentElement).color), light(ground)].sort((x, y) => y - x);
    const LEAST = 4.5;
    if ((a + 0.05) / (b + 0.05) < LEAST) tell(`its contrast is ${((a + 0.05) / (b + 0.05)).toFixed(1)}`, node);
  }

  // What is touched is large enough for a thumb, but for words inside a sentence.
  const THUMB = 24;
  for (const node of document.body.querySelectorAll("nav a, label, button, summary")) {
    if (!unseen(node) && node.getBoundingClientRect().height < THUMB) tell("it is too low to be touched", node);
  }
  return faults;
})()
