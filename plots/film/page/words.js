// What is said of a moment, for those who read it and those who have it read to them.

const say = number => number.toLocaleString('en');
const clockTime = seconds => [seconds / 3600 % 24, seconds / 60 % 60, seconds % 60].map(n => String(Math.floor(n)).padStart(2, '0')).join(':');
const many = (n, one, more = one + 's') => `${say(n)} ${n === 1 ? one : more}`;

// lasting says how long something lasts, or has lasted.
function lasting(seconds) {
  if (seconds < 100) return many(Math.round(seconds), 'second');
  if (seconds < 5400) return many(Math.round(seconds / 60), 'minute');
  return `${(seconds / 3600).toFixed(1)} hours`;
}

const DOING = {
  waiting: 'waiting for an operator', working: 'an operator is at work', restarting: 'restarting',
};

// stateOf says in one sentence what a line does.
function stateOf({track, now, stop}, t) {
  if (stop?.station < 0) return `Standing: ${stop.cause}, for ${lasting(t - stop.since)} so far.`;
  if (stop) {
    const {name} = track.stations[stop.station];
    return `Standing: ${name}, ${stop.cause}; ${DOING[stop.phase] ?? stop.phase}, for ${lasting(t - stop.since)} so far.`;
  }
  if (now.running && now.speed < 0.995) return `Running at ${Math.round(100 * now.speed)} % of its speed.`;
  return now.running ? 'Running.' : 'At rest.';
}

// sharesOf says how a line spent a stretch of time.
function sharesOf(track, from, to) {
  const shares = track.phases(from, to), lasts = to - from;
  const percent = seconds => Math.round(100 * seconds / lasts) + ' %';
  let stood = 0;
  for (const seconds of shares.values()) stood += seconds;
  const parts = [...shares].map(([phase, seconds]) => `${phase} ${percent(seconds)}`);
  return `Of the last ${lasting(lasts)}: ${[`running ${percent(Math.max(0, lasts - stood))}`, ...parts].join(', ')}.`;
}

// lead names the line, where there are several.
const lead = (view, {track}) => view.lines.length > 1 ? track.name + ': ' : '';

// summed returns the sentences on a stretch of time that is over too fast for more.
function summed(view, back) {
  return view.lines.map(line => {
    const {track} = line;
    const stops = upTo(track.stops.from, view.t) - upTo(track.stops.from, back);
    return `${lead(view, line)}${sharesOf(track, back, view.t)} ${many(stops, 'stop')}.`;
  });
}

// told returns the sentences on a moment.
function told(show, view, followed) {
  if (view.between) return ['The line is being set up for the next pass.'];
  const all = [];
  view.lines.forEach((line, k) => {
    all.push(lead(view, line) + stateOf(line, view.t), ...unusual(line, view.t));
    if (k === followed.line && followed.set > 0) all.push(follow(line, followed.set));
  });
  all.push(crewOf(show, view));
  return all;
}

// unusual says what on the track is not as it should be, and which stocks are low.
function unusual({track, now}, t) {
  const sets = [], low = [];
  for (let at = track.end; at >= 0; at--) {
    const set = now.cycle - at, look = set > 0 ? track.look(set, now.cycle) : 'good';
    if (look === 'gone') sets.push(`set ${say(set)} ${track.fate(set)}, its pocket empty`);
    else if (look === 'flawed') sets.push(`set ${say(set)} not as it should be, and not found`);
    else if (look !== 'good') sets.push(`set ${say(set)} ${look}`);
  }
  track.stations.forEach((station, i) => {
    if (station.capacity > 0 && track.level(i, now.cycle, t) <= station.warning) low.push(`${station.name} ${station.bin ? 'nearly full' : 'low'}`);
  });
  return [
    sets.length ? `On the track: ${sets.join('; ')}.` : 'On the track: nothing unusual.',
    ...low.length ? [`Stocks: ${low.join(', ')}.`] : [],
  ];
}

// crewOf says what each operator does, and what waits.
function crewOf(show, view) {
  const at = ({line, station}) => view.lines[line].track.stations[station].name + (view.lines.length > 1 ? ` of ${view.lines[line].track.name}` : '');
  const hands = view.crew.flatMap(({does, task}, k) => does === 'away' ? [] : `${show.nameOf(k)} ${does === 'free' ? 'is free' : does === 'walks' ? `walks to ${at(task)}` : `works at ${at(task)}`}.`);
  if (!hands.length) hands.push('No operator is there.');
  const waiting = show.waiting(view.reel, view.t).map(at);
  return [...hands, ...waiting.length ? [`Nobody is free yet for ${waiting.join(', ')}.`] : []].join(' ');
}

// follow says where a set is, and what happened with it up to now.
function follow({track, now}, set) {
  if (set > track.started) return `Set ${say(set)}: there is none; ${say(track.started)} were begun.`;
  const at = now.cycle - set, look = track.look(set, now.cycle), notes = track.notesOf(set, now.cycle);
  const last = track.stations.findLast(s => s.at <= at);
  const where = at < 0 ? 'not begun' : look === 'gone' ? track.fate(set) : at >= track.end ? 'delivered' : `at pitch ${at}, ${at === last.at ? 'at' : 'after'} ${last.name}`;
  return `Set ${say(set)}: ${where}. ${notes.length ? notes.join('; ') : 'Nothing unusual so far'}.`;
}
