// The whole film at a moment, which is in seconds from its start.

class Show {
  constructor(film) {
    Object.assign(this, film);
    this.reels = film.reels.map(reel => ({...reel, tracks: reel.lines.map(line => new Track(line, film.fates))}));
    this.starts = this.reels.map(reel => reel.begins);
    const last = this.reels.at(-1);
    this.lasts = last.begins + last.lasts;
    this.stops = this.everyStop();
    this.stopTimes = this.stops.map(stop => stop.time);
  }

  // everyStop returns when each stop arose. Times are rounded: it is not before the end of its cycle.
  everyStop() {
    const all = [];
    for (const reel of this.reels) {
      for (const track of reel.tracks) {
        const {from, station, cause, cycle} = track.stops;
        from.forEach((at, i) => all.push({
          time: this.moment(reel, Math.max(at, track.completed(cycle[i]))),
          name: `${track.stations[station[i]].name}, ${cause[i]}`,
        }));
      }
    }
    return all.sort((a, b) => a.time - b.time);
  }

  // within returns the moment of a reel that a moment of the film is.
  within(reel, time) { return time >= reel.begins + reel.lasts ? reel.lasts : time - reel.begins; }

  // moment returns the moment of the film that one of a reel is: not a rounding error before it.
  moment(reel, t) {
    let time = reel.begins + t;
    while (this.within(reel, time) < t) time += time * Number.EPSILON;
    return time;
  }

  reelAt(time) { return Math.max(0, upTo(this.starts, time) - 1); }

  // view returns all that is to be drawn, and said, of a moment.
  view(time) {
    const number = this.reelAt(time), reel = this.reels[number], t = this.within(reel, time);
    const lines = reel.tracks.map(track => ({track, now: track.at(t), stop: track.standing(t)}));
    const between = time > reel.begins + reel.lasts;
    return {time, number, reel, t, between, lines, crew: this.crewAt(reel, t), counts: this.counts(time, number, lines)};
  }

  // counts returns the counts of all lines, and of the reels before.
  counts(time, number, lines) {
    const sum = {};
    const add = counts => { for (const name in counts) sum[name] = (sum[name] ?? 0) + counts[name]; };
    for (const {track, now} of lines) add(track.counts(now.cycle));
    for (const reel of this.reels.slice(0, number)) {
      for (const track of reel.tracks) add(track.counts(track.runs.last.at(-1) ?? 0));
    }
    sum.stops = upTo(this.stopTimes, time);
    return sum;
  }

  // crewAt returns what each operator does: the task before, and the last one that was taken up.
  crewAt(reel, t) {
    reel.hands ??= this.hands(reel);
    const crew = reel.hands.map(({from, task}) => {
      const k = upTo(from, t) - 1;
      return {before: task[k - 1], task: task[k], does: k < 0 ? 'free' : this.does(task[k], t)};
    });
    this.sendAway(crew, reel.present, t);
    return crew;
  }

  does(task, t) { return t >= task.to ? 'free' : t < task.arrives ? 'walks' : 'works'; }

  // sendAway marks those of a crew who are not there: of the free ones, those with the highest
  // numbers, as nothing else is known. Technicians are elsewhere unless they are called.
  sendAway(crew, present, t) {
    const k = upTo(present.at, t) - 1;
    let free = (k < 0 ? this.operators : present.operators[k]) - crew.slice(0, this.operators).filter(hand => hand.does !== 'free').length;
    crew.forEach((hand, i) => {
      if (hand.does === 'free' && (i >= this.operators || free-- <= 0)) hand.does = 'away';
    });
  }

  // hands returns the tasks of each operator, in order.
  hands(reel) {
    const all = Array.from({length: this.operators + this.technicians}, () => ({from: [], task: []})), {tasks} = reel;
    const order = tasks.from.map((_, i) => i).filter(i => tasks.operator[i] >= 0);
    order.sort((a, b) => tasks.from[a] - tasks.from[b]);
    for (const i of order) {
      const hand = all[tasks.operator[i]];
      hand.from.push(tasks.from[i]);
      hand.task.push({line: tasks.line[i], station: tasks.station[i], work: tasks.work[i], from: tasks.from[i], arrives: tasks.arrives[i], to: tasks.to[i]});
    }
    return all;
  }

  // nameOf returns what one of the crew is called, and signOf what is written on him.
  nameOf(k) { return k < this.operators ? `Operator ${k + 1}` : `Technician ${k - this.operators + 1}`; }
  signOf(k) { return k < this.operators ? String(k + 1) : 'T'; }

  // waiting returns the tasks that have been called for and not taken up.
  waiting(reel, t) {
    const {called, from, line, station, work} = reel.tasks, all = [];
    for (let i = 0; i < called.length && called[i] <= t; i++) {
      if (from[i] > t) all.push({line: line[i], station: station[i], work: work[i]});
    }
    return all;
  }
}
