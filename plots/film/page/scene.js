// The picture: for each line its track with all that is on it, and the operators beside it.

class Scene {
  constructor(canvas, show) {
    this.pen = new Pen(canvas);
    this.show = show;
    this.planned = '';
  }

  // refresh takes new colours.
  refresh() { this.pen.refresh(); }

  // plan says where everything stands, anew where the width or the reel is another.
  plan(reel) {
    const width = this.pen.canvas.clientWidth, key = width + '/' + reel.begins;
    if (this.planned === key) return;
    this.planned = key;
    this.plans = [];
    let top = 6;
    for (const track of reel.tracks) {
      const plan = new Plan(track, this.pen, reel.tracks.length > 1 ? top + 18 : top, width);
      plan.top = top;
      this.plans.push(plan);
      top = plan.bottom + 16;
    }
    this.height = top;
  }

  // draw draws a moment. At many times the speed sets are a blur; where it is summed up from a moment
  // back on, so are stops. A set may be followed.
  draw(view, {speed, back, followed}) {
    this.plan(view.reel);
    const {pen} = this;
    pen.size(this.height);
    view.lines.forEach((line, k) => {
      const plan = this.plans[k], each = line.track.full;
      if (view.lines.length > 1) pen.text(line.track.name, 8, plan.top + 12, {bold: true});
      this.track(plan, line.track);
      const shown = back === undefined ? line : {...line, stop: undefined};
      line.track.stations.forEach((_, i) => drawStation(pen, plan, shown, i, view.t));
      drawSets(pen, plan, line, speed / each / 60 > 0.35 && line.now.running, k === followed.line ? followed.set : 0);
      if (back !== undefined) this.stops(plan, line.track, back, view.t);
    });
    if (back === undefined) this.crew(view);
  }

  // track draws the track itself, lines from the stations to their names, and the rail of the
  // operators.
  track(plan, track) {
    const from = plan.spot(-0.5, -12), to = plan.spot(track.end + 0.5, -16);
    if (plan.upright) this.pen.fill(plan.origin.x - 24, from.y, 48, to.y - from.y, 'track');
    else this.pen.fill(from.x, from.y, to.x - from.x, 5, 'track');
    for (const {from, y} of plan.labels) {
      if (from !== undefined) this.pen.path([from, plan.origin.y + 16, from, y - 12], {ink: 'rule', width: 1});
    }
    const a = plan.spot(-0.5, plan.rail), b = plan.spot(track.end + 0.5, plan.rail);
    this.pen.path([a.x, a.y, b.x, b.y], {ink: 'rule', dashes: [1, 4]});
  }

  // stops writes at each station how many stops arose from one moment to another.
  stops(plan, track, from, to) {
    const stops = track.stations.map(() => 0);
    for (let k = upTo(track.stops.from, from); k < upTo(track.stops.from, to); k++) stops[track.stops.station[k]]++;
    track.stations.forEach(({at}, i) => {
      const {x, y} = plan.spot(at, plan.rail);
      if (stops[i] > 0) this.pen.text(plan.step > 60 ? many(stops[i], 'stop') : say(stops[i]), x, y + 4, {align: 'center', bold: true, ink: 'waiting'});
    });
  }

  // crew draws each operator: a ring who is free, a disc who walks, a square who works; and a call
  // at each station where somebody is wanted.
  crew(view) {
    for (const {line, station} of this.show.waiting(view.reel, view.t)) {
      const {x, y} = this.place(view, line, station, 0);
      this.pen.text('!', x, y + 5, {align: 'center', bold: true, ink: 'waiting'});
    }
    view.crew.forEach((hand, k) => {
      if (hand.does === 'away') return;
      const {x, y} = this.whereabouts(view, hand, k), {pen} = this;
      if (hand.does === 'works') pen.box(x - 7, y - 7, 14, 14, {ink: 'crew', fill: 'crew'});
      else pen.disc(x, y, 7.5, {ink: 'crew', fill: hand.does === 'walks' ? 'crew' : 'paper', width: 2});
      pen.text(this.show.signOf(k), x, y + 4, {align: 'center', bold: true, ink: hand.does === 'free' ? 'crew' : 'paper'});
    });
  }

  // whereabouts returns where an operator is: at the place of the last task, or on the way from there.
  whereabouts(view, {before, task, does}, k) {
    const here = of => of ? this.place(view, of.line, of.station, k) : this.home(k);
    const to = here(task);
    if (does !== 'walks') return to;
    const from = here(before), share = (view.t - task.from) / (task.arrives - task.from || 1);
    return {x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share};
  }

  // place returns where operator k stands at a station; several do not cover each other.
  place(view, line, station, k) {
    const plan = this.plans[line], {at} = view.lines[line].track.stations[station];
    return aside(plan, plan.spot(at, plan.rail), k);
  }

  home(k) {
    const [plan] = this.plans;
    return aside(plan, plan.spot(-0.5, plan.rail), k);
  }
}

function aside(plan, {x, y}, k) { return plan.upright ? {x: x + (k % 2) * 8, y: y + (k % 3) * 8} : {x: x + (k % 3) * 16, y: y + Math.floor(k / 3) * 8}; }
