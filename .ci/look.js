// Lays pages of HTML side by side at three widths and measures them: see look. The
// address says how: frame.html?light,NAME,NAME
const [light, ...names] = location.search.slice(1).split(",");
const widths = [320, 768, 1280];
const out = ["look:begin"];

// rgb reads a computed color; null where it is not there or lets what is behind through.
function rgb(text) {
  const n = (text.match(/[\d.]+/g) || []).map(Number);
  return text.startsWith("rgb") && (n.length < 4 || n[3] === 1) ? n.slice(0, 3) : null;
}
function luminance(c) {
  const [r, g, b] = c.map(v => (v /= 255) <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
function contrast(a, b) {
  const [x, y] = [luminance(a), luminance(b)].sort((p, q) => q - p);
  return (x + 0.05) / (y + 0.05);
}
function behind(e, view) {
  for (; e; e = e.parentElement) {
    const c = rgb(view.getComputedStyle(e).backgroundColor);
    if (c) return c;
  }
  return light === "dark" ? [18, 18, 18] : [255, 255, 255];
}
// behindDrawn is the color that a text of a drawing lies on: its own outline, or what
// is filled below it.
function behindDrawn(e, view) {
  const style = view.getComputedStyle(e), halo = rgb(style.stroke);
  if (halo && style.paintOrder.startsWith("stroke")) return halo;
  const r = e.getBoundingClientRect();
  const all = view.document.elementsFromPoint(r.x + r.width / 2, r.y + r.height / 2);
  for (const each of all) {
    if (each === e || e.contains(each) || each.contains(e)) continue;
    if (each instanceof view.SVGGeometryElement) {
      const fill = view.getComputedStyle(each).fill;
      if (rgb(fill)) return rgb(fill);
      if (fill.startsWith("url")) return null;
    }
  }
  return behind(e.closest("svg"), view);
}

function measure(name, doc, width) {
  const view = doc.defaultView, seen = new Set(), ids = new Set();
  let least = 99, small = 99;
  const found = what => {
    const line = `found ${name} ${light} ${width} px: ${what}`.replace(/\s+/g, " ");
    if (!seen.has(line) && seen.size < 12) out.push(line);
    seen.add(line);
  };
  const named = e => `<${e.tagName.toLowerCase()}> "${e.textContent.trim().slice(0, 60)}"`;
  if (view.matchMedia("(prefers-color-scheme: dark)").matches !== (light === "dark")) found("not shown in this scheme");
  if (doc.documentElement.scrollWidth > width) found(`${doc.documentElement.scrollWidth} px wide`);
  let level = 0;
  for (const e of doc.body.querySelectorAll("*")) {
    if (e.id && ids.has(e.id)) found(`two of the id ${e.id}`);
    ids.add(e.id);
    const h = /^H([1-6])$/.exec(e.tagName);
    if (h) {
      if (+h[1] > level + 1) found(`a heading jumps: ${named(e)}`);
      level = +h[1];
      if (!e.textContent.trim()) found("an empty heading");
    }
    const style = view.getComputedStyle(e), r = e.getBoundingClientRect();
    if (r.width === 0 || r.right < 0 || style.visibility === "hidden") continue;
    if (!e.closest("svg svg, defs") && (r.right > width + 0.5 || r.left < -0.5)) found(`goes past the edge: ${named(e)}`);
    if (style.overflowX !== "visible" && !e.closest("svg") && e.scrollWidth > e.clientWidth + 1) found(`cut off: ${named(e)}`);
    const text = [...e.childNodes].some(n => n.nodeType === 3 && n.textContent.trim());
    if (!text || e.closest("title, desc, defs, style")) continue;
    const svg = e.closest("svg");
    const front = rgb(svg ? style.fill : style.color), back = svg ? behindDrawn(e, view) : behind(e, view);
    if (!front || !back) { found(`text on a pattern, or of no plain color: ${named(e)}`); continue; }
    const c = contrast(front, back);
    least = Math.min(least, c);
    if (c < 4.5) found(`contrast ${c.toFixed(1)}: ${named(e)}`);
  }
  for (const a of doc.querySelectorAll("a")) {
    if (!ids.has(decodeURIComponent(a.hash.slice(1)))) found(`a link to nothing: ${a.getAttribute("href")}`);
  }
  for (const svg of doc.querySelectorAll("svg")) {
    const box = svg.getBoundingClientRect(), texts = [...svg.querySelectorAll("text")].map(e => [e, e.getBoundingClientRect()]);
    texts.forEach(([e, r], i) => {
      if (!r.width) return;
      const turned = e.getScreenCTM();
      small = Math.min(small, parseFloat(view.getComputedStyle(e).fontSize) * Math.hypot(turned.b, turned.d));
      if (r.left < box.left - 1 || r.right > box.right + 1 || r.top < box.top - 1 || r.bottom > box.bottom + 1) found(`outside its drawing: ${named(e)}`);
      for (const [f, q] of texts.slice(i + 1)) {
        if (r.left < q.right - 1 && q.left < r.right - 1 && r.top < q.bottom - 2 && q.top < r.bottom - 2) found(`texts on one another: ${named(e)} and ${named(f)}`);
      }
    });
  }
  if (small < 9) found(`text of ${small.toFixed(1)} px in a drawing`);
  return [least, small];
}

async function look() {
  for (const name of names) {
    let tall = 0, least = 99, small = 99;
    const row = document.body.appendChild(document.createElement("div"));
    row.style.cssText = "display:flex;gap:16px;align-items:flex-start";
    for (const width of widths) {
      const f = document.createElement("iframe");
      f.style.cssText = `width:${width}px;height:1000px;border:0;flex:none`;
      f.src = name + ".html";
      row.appendChild(f);
      await new Promise(done => f.onload = done);
      const high = f.contentDocument.documentElement.scrollHeight;
      f.style.height = high + "px";
      tall = Math.max(tall, high);
      f.scrollIntoView();
      const [l, s] = measure(name, f.contentDocument, width);
      least = Math.min(least, l);
      small = Math.min(small, s);
    }
    if (names.length > 1) row.remove();
    out.push(`seen ${name} ${tall} contrast ${least.toFixed(1)}` + (small < 99 ? `, drawn text ${small.toFixed(0)} px` : ""));
  }
  if (names.length === 1) scrollTo(0, 0);
  const said = document.body.appendChild(document.createElement("pre"));
  said.hidden = names.length === 1;
  said.textContent = "\n" + out.join("\n") + "\nlook:end\n";
}
look();
