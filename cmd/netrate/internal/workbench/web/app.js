// The page of netrate open. It shows what the server says, region by region, and sends what is done
// to it, one operation after the other. It works out nothing.
import {makeEditor} from "./editor.js";
import {startPlan} from "./plan.js";

const $ = id => document.getElementById(id);
const unique = () => crypto.getRandomValues(new Uint32Array(4)).join("-"); // randomUUID is for encrypted pages alone
const tab = unique();
const say = (text, wrong = false) => { $("live").textContent = text; $("live").classList.toggle("wrong", wrong) };

// ---- operations: one at a time, in order; of those of a group that wait, the last one stays
const queue = [];
let busy = false;
function op(o) {
  return new Promise(done => {
    const last = queue.at(-1);
    if (o.latest && last && last.o.group === o.group && last.o.kind === o.kind) { last.done({dropped: true}); queue.pop() }
    queue.push({o, done});
    next();
  });
}
async function next() {
  if (busy || !queue.length) return;
  busy = true;
  const {o, done} = queue.shift();
  done(await post(o));
  busy = false;
  next();
}
async function post({latest, ...o}) {
  if (o.kind !== "type" && editor) await editor.settle();
  try {
    const r = await fetch("do", {method: "POST", headers: {"Content-Type": "application/json"}, body: JSON.stringify({tab, ...o})});
    if (!r.ok) return {wrong: await r.text(), failed: true};
    return await r.json();
  } catch {
    return {wrong: "The workbench does not answer. Is it still running?", failed: true};
  }
}
async function act(o) {
  const r = await op(o);
  if (r.wrong) say(r.wrong, true); else say(r.said ?? "");
  return r;
}

// ---- the editor pane
let editor = null, keys = [];
const pushOf = (rev, edits, group) => post({kind: "type", rev, edits, group});
function startEditor(text, rev) {
  editor = makeEditor($("editor"), tab, text, rev, {push: pushOf, undo: () => act({kind: "undo"}), redo: () => act({kind: "redo"}), keys: () => keys});
}
fetch("keys").then(r => r.json()).then(k => { keys = k });

// ---- the stream
let stream = null, gone = false;
function connect(known = editor ? editor.rev() : -1) {
  if (stream) stream.close();
  stream = new EventSource("events?known=" + known);
  stream.addEventListener("hello", e => {
    const m = JSON.parse(e.data);
    document.body.classList.remove("gone");
    if (gone) say("The workbench is there again.");
    gone = false;
    if (!editor) startEditor(m.text, m.rev);
    else if (m.changes) m.changes.forEach(c => editor.receive(c));
    else editor.load(m.text, m.rev);
    editor.settle();
  });
  stream.addEventListener("change", e => {
    if (!editor) return;
    try { editor.receive(JSON.parse(e.data)) } catch (x) { // better the whole text again than an editor that hangs
      console.error(x);
      connect(-1);
    }
  });
  stream.addEventListener("regions", e => show(JSON.parse(e.data).html));
  stream.onerror = () => {
    gone = true;
    document.body.classList.add("gone");
    say("The workbench does not answer. Nothing is lost: start it again with the same command, and this page goes on.");
    if (stream.readyState === EventSource.CLOSED) setTimeout(() => connect(), 1000);
  };
}
// A browser lets a page have six connections: a hidden one gives its stream back.
document.addEventListener("visibilitychange", () => {
  if (document.hidden) { if (stream) stream.close(); stream = null } else if (!stream) connect();
});

// ---- regions
const opened = new Set();           // sections that are open stay open
const kept = {};                    // what is as it was set: what may be bought, how sure a date shall be
let sought = false;                 // the answer to a question is to be seen when it comes
let late = null;                    // the track, held back while it is dragged
// keyOf is by what an element of a region is found again in the next one.
const keyOf = x => ["data-name", "data-act", "data-pin", "data-film", "href", "id"].map(k => x.getAttribute(k) ?? "").join("\n") + (x.matches("summary") ? x.textContent : "");
function show(regions) {
  const heard = performance.now();
  for (const id in regions) {
    if (id === "track" && drag) { late = regions[id]; continue }
    const target = $(id);
    if (!target) continue;
    if (id === "design" || id === "serviceask") { if (kept[id] === regions[id]) continue; kept[id] = regions[id] }
    const t = document.createElement("template");
    t.innerHTML = regions[id];
    const scroll = id === "track" || id === "plan" ? target.scrollLeft : 0, held = document.activeElement;
    const focused = target.contains(held) ? keyOf(held) : null;
    if (id === "details" || id === "versus" || id === "asked") for (const d of t.content.querySelectorAll("details")) d.open = opened.has(id + d.querySelector("summary").textContent);
    const chosen = id === "films" ? $("filmpin")?.value : null;
    target.replaceChildren(t.content);
    if (chosen && [...$("filmpin").options].some(o => o.value === chosen)) $("filmpin").value = chosen;
    if (id === "track" || id === "plan") target.scrollLeft = scroll;
    if (id === "track") mark();
    if (id === "plan") plan.drawn();
    if (id === "asked" && sought) { target.scrollIntoView(); sought = !!$("stop") }
    if (focused && !target.contains(document.activeElement)) (
      [...target.querySelectorAll("[data-name],[data-act],[data-film],[id],a,summary")].find(x => keyOf(x) === focused)
      ?? target.querySelector("button,a,input,select,[tabindex='0']") ?? $("right")).focus(); // what is gone leaves it to what is near
    if (id === "bar") { const can = $("can").dataset; $("undo").disabled = can.undo !== "true"; $("redo").disabled = can.redo !== "true" }
    if (id === "problems" && editor) editor.problems([...target.querySelectorAll("li")].map(li => ({line: +li.dataset.line, column: +li.dataset.column, text: li.textContent})));
  }
  const rev = $("status").firstElementChild?.dataset.rev;
  if (regions.track !== undefined || regions.problems !== undefined || regions.bar !== undefined || rev !== formRev) { formRev = rev; refreshForm() }
  if (regions.compared !== undefined || regions.asked !== undefined) staleness();
  if (regions.rate !== undefined || regions.status !== undefined) {
    const s = $("status").firstElementChild;
    staleness();
    if (s && regions.rate !== undefined) requestAnimationFrame(() => {
      const c = new MessageChannel();
      c.port1.onmessage = () => document.dispatchEvent(new CustomEvent("painted", {detail: {rev: +s.dataset.rev, reps: +s.dataset.reps, rough: s.dataset.rough === "true", heard, at: performance.now()}}));
      c.port2.postMessage(0);
    });
  }
}
document.addEventListener("toggle", e => {
  const d = e.target, of = d.closest("#details,#versus,#asked");
  if (!of || !d.matches("details")) return;
  const name = of.id + d.querySelector("summary").textContent;
  if (d.open) opened.add(name); else opened.delete(name);
}, true);

// ---- what is selected
let selected = {path: "", station: ""};   // of a station also where it stands, once it was drawn
let wanted = null;                  // a station that was put in, and is selected once it is drawn
async function select(path, station = "") {
  selected = {path, station};
  for (const t of $("parts").children) {
    const on = station ? t.dataset.path === "" : t.dataset.path === path;
    t.setAttribute("aria-selected", on);
    t.tabIndex = on ? 0 : -1;
  }
  const file = path === "file";
  $("editor").hidden = !file;
  document.body.classList.toggle("file", file);
  $("formpane").hidden = file;
  mark();
  staleness();
  if (!file) await refreshForm(true);
}
function mark() {
  let first = null, found = null;
  for (const g of document.querySelectorAll(".station")) {
    first ??= g;
    const on = g.dataset.path === selected.path;
    g.setAttribute("aria-selected", on);
    g.setAttribute("tabindex", on ? 0 : -1);
    if (on) { found = g; selected.line = g.dataset.line; selected.at = g.dataset.at }
  }
  if (wanted && selected.path !== wanted.path) {
    const g = document.querySelector(`.station[data-path="${CSS.escape(wanted.path)}"]`);
    if (g) { const w = wanted; wanted = null; select(w.path, w.station); if (w.focus) $("track").querySelector(`[data-path="${CSS.escape(w.path)}"]`).focus(); return }
  }
  if (!found && first) {
    first.setAttribute("tabindex", 0);
    const there = [...document.querySelectorAll(".station")].find(g => g.dataset.line === selected.line && g.dataset.at === selected.at) ?? first; // it has another name by now
    if (selected.station || selected.path === "") select(there.dataset.path, there.dataset.name);
  }
}
let asked = 0, formRev;               // of the text that the form was last asked of
async function refreshForm(whole = false) {
  if (selected.path === "file" || selected.path === "") return;
  const n = ++asked, path = selected.path;
  const r = await fetch("form?path=" + encodeURIComponent(path));
  if (!r.ok || n !== asked) return;
  const t = document.createElement("template");
  t.innerHTML = await r.text();
  if (n !== asked) return;
  const fresh = t.content.querySelector("form"), now = $("form");
  if (!fresh.querySelector("input,select,.wrong") && now?.dataset.path === path) return; // renamed or gone: the track is on its way
  const names = f => [...f.querySelectorAll("input,select")].map(x => x.name).join("\n");
  if (whole || !now || now.dataset.path !== path || names(now) !== names(fresh)) {
    const held = now?.contains(document.activeElement) && document.activeElement.name ? document.activeElement : null, more = now?.dataset.path === path && now.querySelector(".more")?.open;
    $("formpane").replaceChildren(t.content);
    if (more) { const m = $("form").querySelector(".more"); if (m) m.open = true }
    const again = held && $("form").querySelector(`[name="${CSS.escape(path + held.name.slice(now.dataset.path.length))}"]`);
    if (again) { again.focus(); if (again.setSelectionRange) { again.value = held.value; again.setSelectionRange(held.selectionStart, held.selectionStart) } }
    staleness();
    return;
  }
  for (const x of fresh.querySelectorAll("[name]")) {
    const old = now.querySelector(`[name="${CSS.escape(x.name)}"]`);
    if (old !== document.activeElement && !old.classList.contains("refused") && old.value !== x.value) old.value = x.value;
    old.defaultValue = x.defaultValue;
  }
  now.querySelector("fieldset").disabled = fresh.querySelector("fieldset").disabled;
}
// Half a name is a name, too: it is taken once it is whole.
const isName = x => selected.station !== "" && x.name === selected.path + ".name";
const isOpen = x => x.classList.contains("refused") || isName(x) && x.value !== x.defaultValue;
// staleness says when the answer is not of what stands in the form.
function staleness() {
  const refused = !$("formpane").hidden && !!document.querySelector("#form .refused");
  document.body.classList.toggle("refusing", refused);
  document.body.classList.toggle("stale", refused || !!document.querySelector("#status .stale"));
  const s = $("status").firstElementChild, rev = +(s?.dataset.rev || 0), of = x => +(document.querySelector(x)?.dataset.rev ?? rev);
  $("details").classList.toggle("earlier", !s?.classList.contains("settled"));
  $("pins").classList.toggle("earlier", of("#compared [data-rev]") !== rev);
  $("versus").classList.toggle("earlier", of("#compared [data-rev]") !== rev);
  $("asked").classList.toggle("earlier", of("#asked [data-rev]") !== rev);
}
let typing = 0;
async function changed(x, last) {
  const wrong = $(x.id + "-wrong");
  const r = await op({kind: "set", path: x.name, value: x.value, group: "field " + x.name + typing, latest: true});
  if (r.dropped) return;
  wrong.textContent = r.wrong ?? "";
  x.classList.toggle("refused", !!r.wrong);
  x.setAttribute("aria-invalid", !!r.wrong);
  staleness();
}
$("formpane").addEventListener("focusin", () => { typing++ });
$("formpane").addEventListener("input", e => { if (e.target.name && !isName(e.target)) changed(e.target) });
$("formpane").addEventListener("change", e => { if (isName(e.target)) changed(e.target) });
$("formpane").addEventListener("submit", e => e.preventDefault());
$("formpane").addEventListener("click", e => {
  const b = e.target.closest("button[data-act=remove]");
  if (b) remove(b.dataset.line, b.dataset.name);
  if (e.target.closest("button[data-act=begin]")) begin();
});
// begin puts in all at once that none of which can be without the others.
async function begin() {
  const all = [...$("form").querySelectorAll("[data-key]")], empty = all.find(x => !x.value.trim());
  if (empty) { empty.focus(); $("begin-wrong").textContent = `Give ${empty.dataset.key}: none of these can be without the others.`; return }
  const r = await op({kind: "set", path: selected.path, value: `{${all.map(x => x.dataset.key + ": " + x.value.trim()).join(", ")}}`});
  $("begin-wrong").textContent = r.wrong ?? "";
}

// ---- tabs
for (const list of [$("parts"), $("views")]) {
  list.addEventListener("click", e => { const b = e.target.closest("[role=tab]"); if (b) pick(b) });
  list.addEventListener("keydown", e => {
    const all = [...list.children], i = all.indexOf(e.target), to = {ArrowRight: i + 1, ArrowLeft: i - 1, Home: 0, End: all.length - 1}[e.key];
    if (to === undefined) return;
    e.preventDefault();
    const b = all[(to + all.length) % all.length];
    pick(b);
    b.focus();
  });
}
let lastStation = {path: "", station: ""};
function pick(b) {
  if (b.dataset.view) {
    for (const t of $("views").children) {
      const on = t === b;
      t.setAttribute("aria-selected", on);
      t.tabIndex = on ? 0 : -1;
      $(t.dataset.view).hidden = !on;
    }
    if (document.activeElement.closest("[hidden]")) b.focus(); // what led here is gone
    return;
  }
  if (selected.station) lastStation = selected;
  if (b.dataset.path) select(b.dataset.path); else select(lastStation.path, lastStation.station);
}

// ---- the track
let drag = null;
const spot = (svg, e) => new DOMPoint(e.clientX, e.clientY).matrixTransform(svg.getScreenCTM().inverse());
const place = (g, at) => { const pitch = +g.ownerSVGElement.dataset.pitch; g.setAttribute("transform", `translate(${(at + 1) * pitch} 0)`) };
function focusStation(g) {
  if (!g) return;
  select(g.dataset.path, g.dataset.name);
  g.focus();
}
async function move(g, at, group) {
  const r = await op({kind: "move", line: g.dataset.line, name: g.dataset.name, at, group, latest: true});
  if (r.wrong) { say(r.wrong, true); if (!drag && g.isConnected) place(g, +g.dataset.at) }
  else if (!r.dropped) say(`${g.dataset.name}, pitch ${at}`);
  return r;
}
$("track").addEventListener("pointerdown", e => {
  const g = e.target.closest(".station");
  if (!g || e.button) return;
  e.preventDefault();
  focusStation(g);
  const svg = g.ownerSVGElement;
  svg.setPointerCapture(e.pointerId);
  const at = +g.dataset.at;
  drag = {g, svg, at, from: at, off: spot(svg, e).x - (at + 1) * +svg.dataset.pitch, group: "drag " + unique(), id: e.pointerId};
});
$("track").addEventListener("pointermove", e => {
  if (!drag || !drag.g) return;
  const at = Math.max(0, Math.round((spot(drag.svg, e).x - drag.off) / +drag.svg.dataset.pitch) - 1);
  if (at === drag.at) return;
  drag.at = at;
  place(drag.g, at);
  drag.moved = move(drag.g, at, drag.group);
});
async function dropped() {
  if (!drag) return;
  const d = drag;
  const r = await d.moved;
  drag = null;
  if (r?.wrong) place(d.g, d.from);
  if (late !== null) { const html = late; late = null; show({track: html}) }
}
for (const end of ["pointerup", "pointercancel"]) $("track").addEventListener(end, dropped);
$("track").addEventListener("keydown", e => {
  const g = e.target.closest(".station");
  if (e.key === "Escape" && drag?.g) {
    e.preventDefault();
    const d = drag;
    drag = null;
    place(d.g, d.from);
    if (d.at !== d.from) op({kind: "move", line: d.g.dataset.line, name: d.g.dataset.name, at: d.from, group: d.group}).then(() => { if (late !== null) { const html = late; late = null; show({track: html}) } });
    say("Back where it was.");
    return;
  }
  if (!g) return;
  const all = [...g.ownerSVGElement.querySelectorAll(".station")], i = all.indexOf(g), step = {ArrowLeft: -1, ArrowRight: 1}[e.key];
  if (step && e.shiftKey) move(g, Math.max(0, +g.dataset.at + step), "keys " + g.dataset.name);
  else if (step) focusStation(all[i + step]);
  else if (e.key === "Home") focusStation(all[0]);
  else if (e.key === "End") focusStation(all.at(-1));
  else if (e.key === "Delete") remove(g.dataset.line, g.dataset.name);
  else if (e.key === "Insert" || e.key === "+") palette.then(() => add(firstPart(), g.dataset.line, g.dataset.name));
  else if (e.key === "Enter" || e.key === " ") { select(g.dataset.path, g.dataset.name).then(() => $("form")?.querySelector("input,select")?.focus()) }
  else return;
  e.preventDefault();
});
const firstPart = () => document.querySelector(".part").dataset.part;
async function add(part, line, after) {
  const r = await act({kind: "add", part, line, after});
  if (r.wrong) return;
  say(`${r.said} stands ${after ? "behind " + after : "first"}.${r.note ? " " + r.note : ""}`);
  wanted = {path: (line ? `lines.${line}.` : "") + "stations." + r.said, station: r.said, focus: $("track").contains(document.activeElement)};
  mark();
}
async function remove(line, name) {
  const g = document.querySelector(`.station[data-name="${CSS.escape(name)}"]`), near = g?.nextElementSibling?.matches(".station") ? g.nextElementSibling : g?.previousElementSibling;
  const r = await act({kind: "remove", line, name});
  if (r.wrong) return;
  say(`${name} is taken out. Undo brings it back.`);
  if (near?.matches?.(".station")) { select(near.dataset.path, near.dataset.name); $("track").querySelector(`[data-name="${CSS.escape(near.dataset.name)}"]`)?.focus() }
}

// ---- the plan
const plan = startPlan({op, say, unique, spot});

// ---- the palette: dragged with the pointer, or pressed
const palette = fetch("palette").then(r => r.text()).then(html => { // a key that was faster waits for it
  $("palette").innerHTML = html;
  document.querySelector("#examples div").append($("examplelist").content);
});
// What a station of the palette is, is said while it is pointed at.
for (const [what, says] of [["pointerover", true], ["focusin", true], ["pointerout", false], ["focusout", false]]) $("palette").addEventListener(what, e => {
  const b = e.target.closest(".part");
  if (!b) return;
  const hint = $("parthint");
  hint.dataset.usual ??= hint.textContent;
  hint.textContent = says ? `${b.textContent}: ${$(b.getAttribute("aria-describedby")).textContent}` : hint.dataset.usual;
});
let carried = null;
$("palette").addEventListener("pointerdown", e => {
  const b = e.target.closest(".part");
  if (!b || e.button) return;
  carried = {part: b.dataset.part, x: e.clientX, y: e.clientY, moved: false, b};
  b.setPointerCapture(e.pointerId);
});
$("palette").addEventListener("pointermove", e => {
  if (!carried) return;
  if (Math.hypot(e.clientX - carried.x, e.clientY - carried.y) > 5) carried.moved = true;
  if (!carried.moved) return;
  document.body.classList.add("carrying");
  const slot = slotAt(e);
  showSlot(slot);
});
$("palette").addEventListener("pointerup", e => {
  const c = carried;
  carried = null;
  document.body.classList.remove("carrying");
  showSlot(null);
  if (!c || !c.moved) return;
  c.b.dataset.dragged = "yes";
  const slot = slotAt(e);
  if (slot) add(c.part, slot.line, slot.after); else say("Drop it on the line.");
});
$("palette").addEventListener("pointercancel", () => { carried = null; document.body.classList.remove("carrying"); showSlot(null) });
$("palette").addEventListener("click", e => {
  const b = e.target.closest(".part");
  if (!b) return;
  if (b.dataset.dragged) { delete b.dataset.dragged; return }
  const g = document.querySelector(`.station[data-path="${CSS.escape(selected.path || lastStation.path)}"]`) ?? document.querySelector(".station");
  if (g) add(b.dataset.part, g.dataset.line, g.dataset.name);
});
// slotAt returns between which stations a pointer is.
function slotAt(e) {
  for (const svg of document.querySelectorAll("svg.track")) {
    const r = svg.getBoundingClientRect();
    if (e.clientX < r.left || e.clientX > r.right || e.clientY < r.top - 20 || e.clientY > r.bottom + 20) continue;
    const x = spot(svg, e).x, pitch = +svg.dataset.pitch;
    let after = "", at = 0;
    for (const g of svg.querySelectorAll(".station")) if ((+g.dataset.at + 1) * pitch <= x) { after = g.dataset.name; at = +g.dataset.at + 1 }
    return {svg, line: svg.dataset.line, after, x: at * pitch + pitch};
  }
  return null;
}
function showSlot(slot) {
  document.querySelector(".slot")?.remove();
  if (!slot) return;
  const r = document.createElementNS("http://www.w3.org/2000/svg", "rect");
  for (const [k, v] of Object.entries({class: "slot", x: slot.x - 2, y: 40, width: 4, height: 48})) r.setAttribute(k, v);
  slot.svg.append(r);
}

// ---- tools
$("undo").onclick = () => act({kind: "undo"});
$("redo").onclick = () => act({kind: "redo"});
document.addEventListener("keydown", e => {
  if (!(e.ctrlKey || e.metaKey) || e.altKey) return;
  const k = e.key.toLowerCase();
  if (k === "s") { e.preventDefault(); save() }
  else if (e.target.closest?.("#editor") || e.target.matches("input:not([type=checkbox], [type=file])") && (!e.target.closest("#form") || isOpen(e.target))) return; // what was typed there comes back first
  else if (k === "z") { e.preventDefault(); undoFromForm(e.shiftKey ? "redo" : "undo") }
  else if (k === "y") { e.preventDefault(); undoFromForm("redo") }
});
function undoFromForm(kind) {
  const x = document.activeElement;
  if (x?.closest?.("#form")) x.blur();
  act({kind});
}
function question(label, value = "") {
  $("asklabel").textContent = label;
  $("askvalue").value = value;
  $("ask").returnValue = "";              // Escape leaves it as it is
  $("ask").showModal();
  $("askvalue").select();
  return new Promise(done => { $("ask").onclose = () => done($("ask").returnValue === "ok" ? $("askvalue").value.trim() : "") });
}
async function save(over = false) {
  if (!$("can")?.dataset.file) return saveAs();
  await act({kind: "save", over});
}
async function saveAs() {
  const name = await question(`Save under which name? It goes into the folder ${$("can")?.dataset.folder}.`, "my-line.yaml");
  if (name) await act({kind: "save", save: name});
}
$("save").onclick = () => save();
$("saveas").onclick = saveAs;
$("pin").onclick = async () => {
  const name = await question("Keep what is on screen under which name? Empty: its own.");
  if ($("ask").returnValue !== "ok") return;
  const r = await act({kind: "pin", name});
  if (!r.wrong) { say("Pinned. Now change the line: both stand side by side under Alternatives."); pick($("views").querySelector("[data-view=alternatives]")) }
};
$("open").onclick = () => $("file").click();
$("file").onchange = async () => {
  const f = $("file").files[0];
  if (f) await act({kind: "open", name: f.name, text: await f.text()});
  $("file").value = "";
};
$("examples").addEventListener("click", e => {
  const b = e.target.closest("[data-example]");
  if (b) { act({kind: "example", name: b.dataset.example}); shut($("examples")) }
});
// A menu is shut by Escape, and when one is elsewhere.
function shut(menu) {
  const within = menu.querySelector("div").contains(document.activeElement);
  menu.open = false;
  if (within) menu.querySelector("summary").focus();
}
for (const menu of document.querySelectorAll(".menu")) {
  menu.addEventListener("keydown", e => { if (e.key === "Escape" && menu.open) { e.preventDefault(); shut(menu) } });
  menu.addEventListener("focusout", e => { if (e.relatedTarget && !menu.contains(e.relatedTarget)) menu.open = false });
  document.addEventListener("pointerdown", e => { if (!menu.contains(e.target)) menu.open = false });
}
document.addEventListener("change", e => { if (e.target.id === "job") act({kind: "job", name: e.target.value}) });
$("command").onclick = async () => {
  const text = await (await fetch("command" + ($("alternatives").hidden ? "" : "?of=alternatives"))).text();
  try { await navigator.clipboard.writeText(text); say("Copied: " + text) } catch { say(text) }
};
$("bar").addEventListener("click", e => {
  const b = e.target.closest("button[data-act]");
  if (b?.dataset.act === "theirs") act({kind: "theirs"});
  if (b?.dataset.act === "over") save(true);
});
$("gain").addEventListener("click", async e => {
  const b = e.target.closest("button[data-act]");
  if (!b || b.dataset.act === "before" && (await act({kind: "before"})).wrong) return;
  pick($("view-alternatives"));
  $("view-alternatives").focus();
});
$("problems").addEventListener("click", e => {
  const b = e.target.closest(".goto");
  if (b) { select("file"); editor.goto(+b.dataset.line) }
});
$("pins").addEventListener("click", async e => {
  const b = e.target.closest("button[data-act]");
  if (!b) return;
  const o = {kind: b.dataset.act, pin: +(b.dataset.pin ?? 0)};
  if (o.kind === "rename") { o.name = await question("What is it called?", b.closest("tr").querySelector("th").textContent); if (!o.name) return }
  act(o);
});
document.addEventListener("click", async e => {
  const b = e.target.closest("[data-ask]");
  if (!b) return;
  const r = await fetch("ask?" + new URLSearchParams({what: b.dataset.ask, service: $("service")?.value ?? ""}), {method: "POST"});
  if (!r.ok) { say(await r.text(), true); refuseBeside(b, $("live").textContent); return }
  refuseBeside(b, "");
  pick($("views").querySelector("[data-view=questions]"));
  sought = !!b.closest("#plansection"); // which is far from the answer
});
// ---- what is optional in the plan, as switches
$("optional").addEventListener("change", () => act({kind: "choose", latest: true, group: "choose",
  choices: [...$("optional").querySelectorAll("input:checked")].map(x => x.dataset.optional)}));
$("asked").addEventListener("click", async e => {
  const b = e.target.closest("[data-act=take]");
  if (!b) return;
  const r = await act({kind: "choose", choices: JSON.parse(b.dataset.choices) ?? []});
  refuseBeside(b, r.wrong ?? "");
  if (!r.wrong) $("plansection").scrollIntoView({block: "nearest"});
});
// ---- what may be bought, as switches
const bought = () => [...$("design").querySelectorAll("input:checked, option:checked")];
function sumUp() {
  const out = $("designsum"), sum = bought().reduce((all, x) => all + +x.dataset.price, 0);
  if (out) out.textContent = "Together " + sum.toLocaleString("en-US") + (out.dataset.limit ? " of " + out.dataset.limit : "");
}
// refuseBeside says beside a button why what it asks for cannot be.
function refuseBeside(button, text) {
  let wrong = button.parentElement.querySelector(":scope > .wrong");
  if (!wrong && !text) return;
  if (!wrong) {
    wrong = document.createElement("span");
    wrong.className = "wrong";
    wrong.setAttribute("role", "alert");
    button.parentElement.append(wrong);
  }
  wrong.textContent = text;
}
async function pinDesign(choices, button) {
  const r = await act({kind: "design", choices});
  if (button) refuseBeside(button, r.wrong ?? "");
  if (!r.wrong) pick($("views").querySelector("[data-view=alternatives]"));
}
$("design").addEventListener("change", () => { sumUp(); refuseBeside($("designed").querySelector("[type=submit]"), "") });
$("design").addEventListener("submit", e => {
  e.preventDefault();
  pinDesign(bought().map(x => x.dataset.choice ?? x.value).filter(x => x), $("designed").querySelector("[type=submit]"));
});
function takeDesign(e) {
  const p = e.target.closest(".frontier [data-choices]");
  if (!p || e.type === "keydown" && e.key !== "Enter" && e.key !== " ") return;
  e.preventDefault();
  const names = JSON.parse(p.dataset.choices) ?? [];
  for (const x of $("design").querySelectorAll("input")) x.checked = names.includes(x.dataset.choice);
  for (const x of $("design").querySelectorAll("select")) x.value = [...x.options].find(o => names.includes(o.value))?.value ?? "";
  sumUp();
  pinDesign(names);
}
$("asked").addEventListener("click", takeDesign);
$("asked").addEventListener("keydown", takeDesign);
// ---- the film, in a frame
let filmsShown = 0;
function film() {
  const pin = $("filmpin").value, set = $("filmset").value, at = new URL("film.html", location.href);
  if (pin) at.searchParams.set("pin", pin);
  at.searchParams.set("shift", $("filmshift").value || 0);
  at.searchParams.set("n", ++filmsShown);           // another address: the text may be another one
  if (set) at.hash = "set=" + set;
  $("filmframe").hidden = false;
  $("filmframe").src = at;
}
$("filmed").addEventListener("submit", e => { e.preventDefault(); film() });
document.addEventListener("click", e => {
  const b = e.target.closest("[data-film]");
  if (!b) return;
  pick($("views").querySelector("[data-view=film]"));
  $("filmpin").value = b.dataset.film;
  film();
});
$("log").onchange = async () => {
  const files = [...$("log").files];
  const counts = files.length > 1 ? files.find(f => /count|feed/i.test(f.name)) ?? files[1] : null, log = files.find(f => f !== counts);
  if (!log) return;
  const r = await fetch("log", {method: "POST", headers: {"Content-Type": "application/json"}, body: JSON.stringify(
    {Name: log.name, Log: await log.text(), Counts: counts ? await counts.text() : "", CountsNamed: counts?.name ?? ""})});
  if (!r.ok) say(await r.text(), true);
  $("log").value = "";
};
$("asked").addEventListener("click", async e => {
  if (e.target.id === "stop") { e.target.disabled = true; fetch("stop", {method: "POST"}) }
  if (e.target.id !== "fitted") return;
  const r = await (await fetch("fitted", {method: "POST"})).json();
  say(r.wrong ?? "The rates are in the text. Undo takes them back.");
});
addEventListener("beforeunload", () => { if (stream) stream.close() });
select("", "");
connect();
