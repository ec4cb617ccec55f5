// The plan of the page: jobs are taken from place to place, with the pointer or by keyboard. What that comes
// to is worked out by the server; here it is only said which job goes where.
const $ = id => document.getElementById(id);

export function startPlan({op, say, unique, spot}) {
  const chart = $("plan"), wrong = $("planwrong");
  const jobs = () => [...chart.querySelectorAll(".job")];
  const named = name => jobs().find(g => g.dataset.name === name);
  const ofLine = line => jobs().filter(g => g.dataset.line === line);
  let selected = "", drag = null;

  // drawn is called when the chart is another one: what is selected, and what is dragged, is found in it again.
  function drawn() {
    const all = jobs(), held = named(selected) ?? all[0];
    for (const g of all) {
      g.setAttribute("tabindex", g === held ? 0 : -1);
      g.setAttribute("aria-selected", g.dataset.name === selected);
      g.classList.toggle("dragged", !!drag?.moved && g.dataset.name === drag.name);
    }
    if (drag?.ghost) chart.firstElementChild?.append(drag.ghost);
  }
  function select(g, focus = true) {
    if (!g) return;
    selected = g.dataset.name;
    drawn();
    if (focus) g.focus();
    refuse("");
  }
  // refuse says beside a job why it cannot go there.
  function refuse(text, g) {
    wrong.textContent = text;
    if (!text || !g) return;
    const r = g.getBoundingClientRect(), box = $("planbox").getBoundingClientRect();
    wrong.style.top = r.bottom - box.top + 4 + "px";
    wrong.style.left = Math.max(0, Math.min(r.left - box.left, box.width - wrong.offsetWidth)) + "px";
  }
  async function move(name, line, at, group) {
    const r = await op({kind: "plan", name, line, at, group, latest: true});
    if (r.dropped) return r;
    refuse(r.wrong ?? "", drag?.ghost ?? named(name));
    say(r.wrong ?? r.said ?? "", !!r.wrong);
    return r;
  }

  // place returns the line and the place on it that a point of the chart is at, for a job.
  function place(name, p) {
    let best = null, off = Infinity;
    for (const lane of chart.querySelectorAll(".lane")) {
      const d = Math.abs(p.y - +lane.dataset.y - 36);
      if (d < off) { off = d; best = lane.dataset.line }
    }
    return {line: best, at: ofLine(best).filter(g => g.dataset.name !== name && +g.dataset.middle < p.x).length};
  }

  chart.addEventListener("pointerdown", e => {
    const g = e.target.closest(".job");
    if (!g || e.button) return;
    e.preventDefault();
    select(g);
    chart.setPointerCapture(e.pointerId); // the chart is drawn anew while a job is dragged: this stays
    const p = spot(g.ownerSVGElement, e), box = g.querySelector(".box"), y = +(g.getAttribute("transform").match(/ ([\d.]+)\)/)[1]);
    drag = {name: g.dataset.name, line: g.dataset.line, at: +g.dataset.place, dx: +box.getAttribute("x") - p.x, dy: y - p.y, box,
      from: {line: g.dataset.line, at: +g.dataset.place}, given: !!document.querySelector("#planstate [data-act=anew]"), group: "plan " + unique(), x: e.clientX, y: e.clientY};
  });
  chart.addEventListener("pointermove", e => {
    if (!drag) return;
    if (!drag.moved && Math.hypot(e.clientX - drag.x, e.clientY - drag.y) < 4) return;
    const svg = chart.firstElementChild, p = spot(svg, e);
    if (!drag.ghost) {
      drag.moved = true;
      drag.ghost = drag.box.cloneNode();
      drag.ghost.setAttribute("class", "ghost");
      svg.append(drag.ghost);
      drawn();
    }
    drag.ghost.setAttribute("transform", `translate(${p.x + drag.dx - +drag.box.getAttribute("x")} ${p.y + drag.dy})`);
    const to = place(drag.name, p);
    if (to.line === drag.line && to.at === drag.at) return;
    Object.assign(drag, to);
    drag.last = move(drag.name, to.line, to.at, drag.group);
  });
  async function dropped() {
    if (!drag) return;
    const d = drag;
    if (d.moved && d.line === d.from.line && d.at === d.from.at) back(d);
    else if ((await d.last)?.wrong) back(d, true); // not where it came by on the way
    if (drag === d) letGo();
  }
  function letGo() {
    drag?.ghost?.remove();
    drag = null;
    drawn();
  }
  // back undoes a drag: a text without an order is one again.
  function back(d, refused = false) {
    if (!d.last) return;
    if (refused && d.given) op({kind: "plan", name: d.name, ...d.from, group: d.group}); // what is said of it stays
    else if (d.given) move(d.name, d.from.line, d.from.at, d.group);
    else op({kind: "set", path: "plan.order", value: "", group: d.group});
  }
  for (const end of ["pointerup", "pointercancel"]) chart.addEventListener(end, dropped);

  chart.addEventListener("focusin", e => {
    const g = e.target.closest(".job");
    if (g && g.dataset.name !== selected) select(g, false);
  });
  chart.addEventListener("keydown", e => {
    if (e.key === "Escape" && drag) {
      e.preventDefault();
      const d = drag;
      letGo();
      back(d);
      refuse("");
      say("Back where it was.");
      return;
    }
    const g = e.target.closest(".job");
    if (!g) return;
    const own = ofLine(g.dataset.line), at = +g.dataset.place, lines = [...chart.querySelectorAll(".lane")].map(l => l.dataset.line);
    const along = {ArrowLeft: -1, ArrowRight: 1}[e.key], across = {ArrowUp: -1, ArrowDown: 1}[e.key];
    const line = across ? lines[lines.indexOf(g.dataset.line) + across] : g.dataset.line, x = +g.dataset.middle;
    if (e.shiftKey && along) { if (own[at + along]) move(g.dataset.name, line, at + along, "keys " + g.dataset.name) }
    else if (e.shiftKey && across) { if (line !== undefined) move(g.dataset.name, line, ofLine(line).filter(o => +o.dataset.middle < x).length, "keys " + g.dataset.name) }
    else if (along) select(own[at + along]);
    else if (across) { if (line !== undefined) select(ofLine(line).sort((a, b) => Math.abs(+a.dataset.middle - x) - Math.abs(+b.dataset.middle - x))[0]) }
    else if (e.key === "Home") select(own[0]);
    else if (e.key === "End") select(own.at(-1));
    else return;
    e.preventDefault();
  });
  document.getElementById("planstate").addEventListener("click", async e => {
    if (!e.target.closest("[data-act=anew]")) return;
    const r = await op({kind: "set", path: "plan.order", value: ""});
    refuse("");
    say(r.wrong ?? "The order is the one that was found. Undo brings yours back.", !!r.wrong);
  });
  return {drawn};
}
