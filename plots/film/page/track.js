// What is known of a line at a moment. All of it is looked up: a moment costs the same wherever in
// the shift it is.

// upTo returns how many of the rising numbers are x or less.
function upTo(numbers, x) {
  let low = 0, high = numbers.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (numbers[middle] <= x) low = middle + 1; else high = middle;
  }
  return low;
}

// Track is a line in a reel. Its times are from the start of the reel.
class Track {
  constructor(line, fates) {
    Object.assign(this, line);
    this.end = this.stations.at(-1).at;
    this.inserter = this.stations.find(s => s.look === 'inserter')?.at ?? this.end + 1;
    this.full = Math.min(...this.runs.each.filter(each => each > 0)); // seconds a cycle, at full speed
    this.places = new Map(this.sets.number.map((number, i) => [number, i]));
    this.lost = this.sets.number.filter((_, i) => this.sets.fate[i] !== fates[0]);
    this.left = new Map(fates.slice(1).map(fate => [fate, this.goneAs(fate)]));
    this.stocks = this.stations.map((_, i) => this.levelsOf(i));
  }

  // goneAs returns the cycles in which sets came to a fate.
  goneAs(fate) {
    const cycles = this.sets.gone.filter((gone, i) => this.sets.fate[i] === fate && gone >= 0);
    return cycles.sort((a, b) => a - b);
  }

  levelsOf(station) {
    const all = {at: [], cycle: [], left: [], filled: []};
    this.levels.station.forEach((of, i) => {
      if (of === station) for (const name in all) all[name].push(this.levels[name][i]);
    });
    return all;
  }

  // at returns how many cycles are completed at a moment, which share of the next one has passed,
  // and whether the line runs. It is the sum that the simulation makes, in the same order: so it is
  // the same cycle.
  at(t) {
    const {from, to, cycle, last, each} = this.runs, k = upTo(from, t) - 1;
    if (k < 0) return {cycle: 0, part: 0, running: false};
    if (!each[k]) return {cycle: cycle[k], part: 0, running: t < to[k]}; // no cycle is completed in it
    const ends = n => from[k] + n * each[k];
    let n = Math.floor((t - from[k]) / each[k]);
    while (n > 0 && ends(n) > t) n--;
    while (ends(n + 1) <= t) n++;
    if (cycle[k] + n >= last[k] && t >= to[k]) return {cycle: last[k], part: 0, running: false};
    const part = Math.min(0.999, Math.max(0, (t - ends(n)) / each[k]));
    return {cycle: Math.min(last[k], cycle[k] + n), part, running: true, speed: this.full / each[k]};
  }

  // completed returns when a cycle was completed.
  completed(cycle) {
    const {from, cycle: before, each} = this.runs, k = upTo(before, cycle - 1) - 1;
    return k < 0 ? 0 : from[k] + (cycle - before[k]) * each[k];
  }

  // counts returns the sets up to the end of a cycle: those begun, and the others by fate.
  counts(cycle) {
    const delivered = Math.max(0, Math.min(this.started, cycle - this.end));
    const counts = {begun: Math.min(cycle, this.started), good: delivered - upTo(this.lost, delivered)};
    for (const [fate, cycles] of this.left) counts[fate] = upTo(cycles, cycle);
    return counts;
  }

  // level returns what is left in the stock of a station. Between two looks of the simulation it
  // falls evenly, cycle by cycle.
  level(station, cycle, t) {
    const {at, cycle: cycles, left, filled} = this.stocks[station];
    const next = upTo(at, t + 0.0005); // times are rounded to a ms
    const since = next ? cycles[next - 1] : 0, had = next ? left[next - 1] : this.stations[station].capacity;
    if (next === at.length || cycles[next] <= since) return had;
    const gone = Math.min(1, Math.max(0, (cycle - since) / (cycles[next] - since)));
    return Math.round(had + (left[next] - filled[next] - had) * gone);
  }

  // look returns what a set is at the end of a cycle: good, flawed, condemned or gone.
  look(set, cycle) {
    const i = this.places.get(set);
    if (i === undefined) return 'good';
    const {gone, condemned, flawed} = this.sets;
    const is = since => since[i] >= 0 && since[i] <= cycle;
    return is(gone) ? 'gone' : is(condemned) ? 'condemned' : is(flawed) ? 'flawed' : 'good';
  }

  fate(set) {
    const i = this.places.get(set);
    return i === undefined ? undefined : this.sets.fate[i];
  }

  // standing returns why and since when the line stands at a moment, or undefined.
  standing(t) {
    const k = upTo(this.stood.from, t) - 1;
    if (k < 0 || this.stood.to[k] <= t) return undefined;
    const {from, station, cause, phase} = this.stood;
    return {since: from[k], station: station[k], cause: cause[k], phase: phase[k]};
  }

  // phases returns for how many seconds the line stood from one moment to another, by phase.
  phases(from, to) {
    const shares = new Map(), {stood} = this;
    for (let k = Math.max(0, upTo(stood.from, from) - 1); k < stood.count && stood.from[k] < to; k++) {
      const within = Math.min(to, stood.to[k]) - Math.max(from, stood.from[k]);
      if (within > 0) shares.set(stood.phase[k], (shares.get(stood.phase[k]) ?? 0) + within);
    }
    return shares;
  }

  // notesOf returns what happened with a set up to the end of a cycle.
  notesOf(set, cycle) {
    const {set: sets, cycle: cycles, station, text} = this.notes, notes = [];
    for (let k = upTo(sets, set - 1); k < sets.length && sets[k] === set; k++) {
      if (cycles[k] <= cycle) notes.push(`cycle ${say(cycles[k])}, ${this.stations[station[k]].name}: ${text[k]}`);
    }
    return notes;
  }
}
