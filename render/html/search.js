"use strict";
// Search over the rows of data/search-*.js, which are scripts since nothing
// can be fetched from a folder. Each row is one line of parts divided by
// U+001F: address, number, name, collector, date, place, marks, hidden words
// (former names, family). Accents and case are ignored on both sides.
(() => {
  const fold = s => s.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase().replace(/[øØ]/g, "o").replace(/[æÆ]/g, "ae").replace(/[ßẞ]/g, "ss").replace(/[łŁ]/g, "l").replace(/[đðÐĐ]/g, "d").replace(/[þÞ]/g, "th").replace(/[×\u0011\u0012]/g, "");
  const rows = [], folded = [];
  const field = { number: 1, name: 2, genus: 2, collector: 3, year: 4, date: 4, place: 5, was: 7, family: 7 };
  window.blotterRows = text => {
    for (const line of text.split("\n")) if (line) { rows.push(line.split("\u001f")); folded.push(fold(line)); }
  };
  const hits = document.getElementById("hits"), found = document.getElementById("found"), input = document.getElementById("q");
  const terms = q => {
    const out = [];
    for (const m of q.matchAll(/(not\s+)?(?:([a-z]+):)?(?:"([^"]*)"|(\S+))/giu)) {
      const name = m[2] ? m[2].toLowerCase() : "";
      const known = Object.hasOwn(field, name);
      out.push({ not: !!m[1], at: known ? field[name] : 0, name: known ? name : "", text: fold(known || !name ? (m[3] ?? m[4]) : name + ":" + (m[3] ?? m[4])) });
    }
    return out;
  };
  const years = t => { const m = /^(\d*)\.\.(\d*)$/.exec(t); return m && [+m[1] || 0, +m[2] || 9999]; };
  const fits = (i, t) => {
    let ok;
    if (!t.at) ok = folded[i].includes(t.text);
    else if (t.name === "year" && years(t.text)) {
      const y = /\d{4}/.exec(rows[i][4]), [a, b] = years(t.text);
      ok = !!y && +y[0] >= a && +y[0] <= b;
    } else if (t.name === "genus") ok = fold(rows[i][2]).split(" ")[0] === t.text;
    else ok = fold(rows[i][t.at]).includes(t.text);
    return ok !== t.not;
  };
  // setName sets a name, as html/name.go does.
  const setName = (at, name) => {
    at.className = "n";
    for (const [i, piece] of name.split(/[\u0011\u0012]/).entries()) {
      if (!piece) continue;
      if (i % 2) { const e = document.createElement("i"); e.lang = "la"; e.textContent = piece; at.append(e); }
      else at.append(piece);
    }
  };
  const row = r => {
    const li = document.createElement("li");
    const part = (text, link) => {
      const s = document.createElement("span");
      if (link) { const a = document.createElement("a"); a.href = link; a.textContent = r[1]; s.append(a, " "); }
      s.append(text);
      li.append(s, " ");
      return s;
    };
    const n = part(""); setName(n, r[2]);
    part(r[3], r[0] + ".html");
    part([r[4], r[5]].filter(Boolean).join(", "));
    if (r[6]) part(r[6]).className = "tail";
    return li;
  };
  const near = word => {
    const grams = s => { const g = new Set(); for (let i = 0; i + 1 < s.length; i++) g.add(s.slice(i, i + 2)); return g; };
    const want = grams(word), best = new Map();
    for (const r of rows) {
      if (best.has(r[2])) continue;
      const have = grams(fold(r[2]));
      let both = 0;
      for (const g of want) if (have.has(g)) both++;
      best.set(r[2], 2 * both / (want.size + have.size || 1));
    }
    return [...best].sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1)).slice(0, 3).filter(x => x[1] > 0.2).map(x => x[0]);
  };
  const plain = s => { const m = /^(.*?)0*(\d+)$/.exec(s); return m ? [m[1], m[2]] : null; };
  const straight = q => {
    const t = q.trim(), bare = plain(fold(t));
    if (!bare) return -1;
    let at = -1;
    for (let i = 0; i < rows.length; i++) {
      const p = plain(fold(rows[i][1]));
      if (p && p[1] === bare[1] && (bare[0] === "" || bare[0] === p[0])) { if (at >= 0) return -1; at = i; }
    }
    return at;
  };
  const run = q => {
    found.textContent = ""; hits.textContent = "";
    const ts = terms(q);
    if (!ts.length) return;
    const at = straight(q);
    if (at >= 0 && /^[\w.-]*\d$/.test(q.trim()) && !/^(1[6-9]|20)\d\d$/.test(q.trim())) { location.replace(rows[at][0] + ".html"); return; }
    const got = [];
    for (let i = 0; i < rows.length; i++) if (ts.every(t => fits(i, t))) got.push(i);
    if (got.length) {
      hits.textContent = got.length.toLocaleString("en") + " " + hits.dataset.found + (got.length > 200 ? " (200)" : "");
      for (const i of got.slice(0, 200)) found.append(row(rows[i]));
      return;
    }
    hits.textContent = hits.dataset.none;
    for (const name of near(ts.map(t => t.text).join(" "))) {
      const li = document.createElement("li"), a = document.createElement("a");
      a.href = "search.html?q=" + encodeURIComponent('"' + name.replace(/[\u0011\u0012]/g, "") + '"'); setName(a, name);
      li.append(a); found.append(li);
    }
  };
  addEventListener("load", () => {
    const q = new URLSearchParams(location.search).get("q") || "";
    input.value = q;
    run(q);
    input.form.addEventListener("submit", e => { e.preventDefault(); history.replaceState(null, "", "?q=" + encodeURIComponent(input.value)); run(input.value); });
  });
})();
