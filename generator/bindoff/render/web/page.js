"use strict";
// The page is whole without this. It keeps a maker's place: size, ticks, rulers, counters.
(() => {
  const root = document.documentElement;
  const all = (query, from = document) => [...from.querySelectorAll(query)];
  const make = (tag, attributes = {}, ...kids) => {
    const made = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
    made.append(...kids);
    return made;
  };

  // ---- what is kept: some browsers refuse storage to a file, then it lasts as long as the page
  const place = `bindoff ${root.dataset.kept}`;
  const kept = (() => {
    try { return JSON.parse(localStorage.getItem(place)) || {}; } catch { return {}; }
  })();
  const keep = (name, value) => {
    kept[name] = value;
    try { localStorage.setItem(place, JSON.stringify(kept)); } catch { /* it lasts for now */ }
  };

  // ---- one size
  const choice = document.getElementById("ui-size");
  const whenSized = [];
  const whenCleared = [];
  const showSize = size => {
    root.toggleAttribute("data-one", size !== "");
    for (const part of all("[data-size]")) {
      part.hidden = size !== "" && part.dataset.size !== size;
    }
    for (const part of all("[data-sizes]")) {
      part.hidden = size !== "" && !part.dataset.sizes.split(" ").includes(size);
    }
    for (const part of all("[data-not]")) {
      part.classList.toggle("not", size !== "" && part.dataset.not.split(" ").includes(size));
    }
    for (const wide of all("thead tr:first-child > [colspan]")) {
      wide.dataset.span ||= wide.colSpan;
    }
    for (const table of all("table")) fitHeads(table);
    for (const act of whenSized) act();
  };
  // A heading over columns of sizes spans those that are shown.
  const fitHeads = table => {
    const [over, under] = all("thead tr", table);
    if (!under) return;
    const below = [...under.cells];
    let at = 0;
    for (const head of over.cells) {
      const span = Number(head.dataset.span || 1);
      const shown = below.slice(at, at + span).filter(each => !each.hidden).length;
      at += span;
      if (span > 1) { head.colSpan = Math.max(1, shown); head.hidden = !shown; }
    }
  };

  // ---- ticks
  const ticks = kept.ticks || {};
  const boxes = [];
  const tickBox = (id, name, of) => {
    const box = make("input", { type: "checkbox", "aria-label": name, autocomplete: "off" });
    box.checked = Boolean(ticks[id]);
    of.classList.toggle("done", box.checked);
    box.addEventListener("change", () => {
      if (box.checked) ticks[id] = 1; else delete ticks[id];
      keep("ticks", ticks);
      of.classList.toggle("done", box.checked);
      tellPlace();
    });
    boxes.push({ box, of, name });
    return make("label", { class: "tick" }, box);
  };
  const steps = [];
  const worked = ["[aria-labelledby^=piece-]", "[aria-labelledby=finishing]"];
  all(worked.map(each => `section${each} > ol`).join()).forEach((list, nth) => {
    [...list.children].forEach((item, at) => {
      const number = (list.start || 1) + at;
      item.classList.add("step");
      item.append(tickBox(`step ${nth} ${number}`, `Step ${number} done`, item));
      steps.push(boxes.at(-1));
    });
  });
  all("table.ticked").forEach((table, nth) => {
    all("thead tr", table).at(-1).append(make("th", { scope: "col" }, "Done"));
    all("tbody tr", table).forEach((row, at) => {
      const name = `${row.cells[0].textContent} done`;
      row.append(make("td", {}, tickBox(`table ${nth} ${at}`, name, row)));
    });
  });
  all(".card").forEach((card, nth) => {
    all("[data-stop]", card).forEach((line, at) => {
      const term = line.querySelector("dt");
      all("svg", term).forEach(box => box.remove());
      const name = `Stop at ${line.dataset.stop} done`;
      term.prepend(tickBox(`card ${nth} ${at}`, name, line));
    });
  });
  const told = document.getElementById("ui-kept");
  const onward = document.getElementById("ui-next");
  const tellPlace = () => {
    const shown = steps.filter(each => !each.of.closest("[hidden]"));
    const done = shown.filter(each => each.box.checked).length;
    told.textContent = shown.length ? `${done} of ${shown.length} steps done` : "";
    const next = shown.find(each => !each.box.checked);
    for (const each of steps) each.of.classList.toggle("onward", Boolean(done) && each === next);
    onward.hidden = !next || !done;
    if (next) {
      next.of.id ||= `ui-step-${steps.indexOf(next)}`;
      onward.href = `#${next.of.id}`;
      onward.textContent = next.name.replace(" done", "").replace("Step", "On with step");
    }
  };
  document.getElementById("ui-clear").addEventListener("click", () => {
    if (!confirm("Clear all ticks, rulers and counters of this pattern?")) return;
    for (const each of boxes) { each.box.checked = false; each.of.classList.remove("done"); }
    for (const id of Object.keys(ticks)) delete ticks[id];
    keep("ticks", ticks);
    for (const act of whenCleared) act();
    tellPlace();
  });

  // ---- a ruler on every chart that is worked from
  const SVG = "http://www.w3.org/2000/svg";
  all("figure[data-rows]").forEach((figure, nth) => {
    const rows = JSON.parse(figure.dataset.rows);
    const drawing = figure.querySelector("svg");
    const wide = drawing.viewBox.baseVal.width;
    const bars = ["#ffffff", "#b3261e"].map((stroke, at) => {
      const bar = document.createElementNS(SVG, "rect");
      const look = { x: .3, width: wide - .6, fill: "none", stroke, "stroke-width": at ? .7 : 1.5 };
      for (const [name, value] of Object.entries(look)) bar.setAttribute(name, value);
      drawing.append(bar);
      return bar;
    });
    const what = rows[0][0].split(" ")[0].toLowerCase();
    const back = make("button", { type: "button" }, `Previous ${what}`);
    const next = make("button", { type: "button" }, `Next ${what}`);
    const words = make("p", { class: "told", "aria-live": "polite" });
    const where = make("span");
    const ways = make("div", { class: "ways" }, back, next, where);
    let above = figure;
    while (above && !/^H[23]$/.test(above.tagName)) above = above.previousElementSibling;
    const called = `Ruler ${nth + 1}: ${above ? above.textContent : what}`;
    const ruler = make("div", { class: "ruler", role: "group", "aria-label": called }, ways, words);
    figure.classList.add("ruled");
    const view = figure.querySelector(".view");
    view.after(ruler);
    const name = `ruler ${nth}`;
    let at = Math.min(kept[name] || 0, rows.length - 1);
    const show = (quiet = false) => {
      const [label, top, height, said] = rows[at];
      for (const bar of bars) { bar.setAttribute("y", top); bar.setAttribute("height", height); }
      const found = said.map(id => document.getElementById(id)).filter(Boolean);
      const kids = found.flatMap(item => [...item.children].filter(kid => kid.localName === "p")
        .flatMap(kid => [...kid.cloneNode(true).childNodes, " "]));
      where.textContent = `${at + 1} of ${rows.length}`;
      words.replaceChildren(...(kids.length ? kids : [label]));
      back.disabled = at === 0;
      next.disabled = at === rows.length - 1;
      if (!quiet) bars[1].scrollIntoView({ block: "nearest", inline: "nearest" });
    };
    const go = to => { at = Math.max(0, Math.min(rows.length - 1, to)); keep(name, at); show(); };
    back.addEventListener("click", () => go(at - 1));
    next.addEventListener("click", () => go(at + 1));
    drawing.addEventListener("click", event => {
      const box = drawing.getBoundingClientRect();
      const y = (event.clientY - box.top) / box.height * drawing.viewBox.baseVal.height;
      const hit = rows.findIndex(([, top, height]) => top <= y && y < top + height);
      if (hit >= 0) go(hit);
    });
    whenSized.push(() => show(true));
    whenCleared.push(() => { at = 0; keep(name, 0); show(true); });
  });

  // ---- a counter on every card for the machine
  all(".card").forEach((card, nth) => {
    const stops = all("[data-stop]", card).map(line => ({
      at: Number(line.dataset.stop), line, what: line.querySelector("dd").textContent.trim(),
    }));
    if (!stops.length) return;
    const name = `counter ${nth}`;
    const last = Math.max(...stops.map(each => each.at));
    let count = Math.min(kept[name] || 0, last);
    const shown = make("p", { class: "shown" });
    const words = make("p", { class: "told", role: "status" });
    const plus = make("button", { type: "button", class: "plus" }, "+ 1");
    const minus = make("button", { type: "button" }, "− 1");
    const jump = make("button", { type: "button" }, "To the next stop");
    const counter = make("div", { class: "counter", role: "group", "aria-label": "Counter" },
      shown, make("div", { class: "ways" }, plus, minus, jump), words);
    (card.querySelector("h3, h4") || card.firstElementChild).after(counter);
    const show = () => {
      const due = stops.filter(each => each.at === count);
      const coming = stops.find(each => each.at > count);
      shown.textContent = count;
      counter.classList.toggle("due", due.length > 0 && count > 0);
      for (const each of stops) each.line.classList.toggle("coming", each.at === (coming ? coming.at : -1));
      const now = due.map(each => `Now, at ${count}: ${each.what}`);
      const left = coming && coming.at - count;
      const far = coming && !due.length ? `${left} to go until the stop at ${coming.at}: ${coming.what}` : "";
      words.textContent = [...now, far].filter(Boolean).join(" ");
      minus.disabled = count === 0;
      plus.disabled = count === last;
      jump.disabled = !coming;
    };
    const go = to => { count = to; keep(name, count); show(); };
    plus.addEventListener("click", () => go(count + 1));
    minus.addEventListener("click", () => go(count - 1));
    jump.addEventListener("click", () => go(stops.find(each => each.at > count).at));
    whenCleared.push(() => { count = 0; keep(name, 0); show(); });
    show();
  });

  // ---- what is wider than the screen can be scrolled by keyboard
  const reach = () => {
    const taken = new Map();
    for (const view of all(".view")) {
      const over = view.scrollWidth > view.clientWidth + 1;
      if (!over) { for (const name of ["tabindex", "role", "aria-label"]) view.removeAttribute(name); continue; }
      const inner = view.querySelector("caption, figcaption") || view.parentElement.querySelector("figcaption");
      view.tabIndex = 0;
      view.setAttribute("role", "region");
      const words = inner?.textContent || view.querySelector("svg")?.getAttribute("aria-label");
      const title = (words || "Table").slice(0, 80);
      const nth = (taken.get(title) || 0) + 1;
      taken.set(title, nth);
      view.setAttribute("aria-label", nth > 1 ? `${title} (${nth})` : title);
    }
  };
  addEventListener("resize", reach);
  whenSized.push(reach, tellPlace);

  for (const id of ["ui-bar", "ui-clear"]) document.getElementById(id).hidden = false;
  if (matchMedia("(max-width: 67.99rem)").matches) {
    document.querySelector("nav details").open = false;
  }
  if (choice) {
    choice.value = kept.size && choice.querySelector(`[value="${Number(kept.size)}"]`) ? kept.size : "";
    choice.addEventListener("change", () => { keep("size", choice.value); showSize(choice.value); });
  }
  showSize(choice ? choice.value : "");
})();
