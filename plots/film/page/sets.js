// The sets in their pockets. What a set is can be told by its shape alone: a cross is condemned, a
// triangle is not as it should be and nobody knows, a dotted frame is an empty pocket, a full one
// holds what was spoiled.

// drawSets draws every pocket of a line, or a band where they would be a blur.
function drawSets(pen, plan, line, blurred, followed) {
  const {track, now} = line;
  if (blurred) {
    drawBand(pen, plan, track);
    return;
  }
  for (let at = -1; at <= track.end; at++) {
    const set = now.cycle - at, along = at + now.part;
    if (set < 1 || set > track.started || along > track.end + 0.5 || along < -0.6) continue;
    const spot = plan.spot(along);
    drawSet(pen, plan, spot, set, along, line);
    if (set === followed) ring(pen, plan, spot);
  }
}

function drawSet(pen, plan, {x, y}, set, along, {track, now}) {
  const {width, height} = plan.pocket, left = x - width / 2, top = y - height / 2;
  const look = track.look(set, now.cycle);
  if (look === 'gone') {
    const spoiled = track.fate(set) === 'spoiled';
    pen.box(left, top, width, height, {ink: spoiled ? 'ink' : 'soft', dashes: spoiled ? [] : [3, 3], fill: spoiled ? 'soft' : undefined});
    return;
  }
  const rim = look === 'good' ? 'soft' : look;
  if (along >= track.inserter) {
    pen.box(left, top, width, height, {ink: rim, fill: 'envelope'});
    flap(pen, left, top, width, height * 0.55);
  } else {
    drawPieces(pen, left, top, width, height, track.stations.filter(s => s.at <= along && FEEDS.has(s.look)).length, rim);
  }
  if (look === 'condemned') cross(pen, x, y, height / 2 + 2);
  if (look === 'flawed') triangle(pen, x, y, height / 2 + 2);
}

const FEEDS = new Set(['hopper', 'sheets']);

// drawPieces draws a set as high as it has pieces.
function drawPieces(pen, left, top, width, height, pieces, rim) {
  const leaf = height / Math.max(4, pieces);
  if (pieces === 0) pen.path([left, top + height, left + width, top + height], {ink: rim});
  for (let k = 0; k < pieces; k++) pen.box(left, top + height - (k + 1) * leaf, width, leaf, {ink: rim, fill: 'piece', width: 1});
}

function cross(pen, x, y, r) {
  for (const [ink, width] of [['paper', 6], ['condemned', 3]]) {
    pen.path([x - r, y - r, x + r, y + r], {ink, width});
    pen.path([x - r, y + r, x + r, y - r], {ink, width});
  }
}

function triangle(pen, x, y, r) { pen.path([x, y - r, x + r, y + r - 2, x - r, y + r - 2], {ink: 'flawed', fill: 'paper', width: 2.5}); }

// ring marks the set that is followed.
function ring(pen, plan, {x, y}) {
  const {width, height} = plan.pocket;
  pen.box(x - width / 2 - 5, y - height / 2 - 5, width + 10, height + 10, {ink: 'crew', width: 2.5});
}

// drawBand draws sets too fast to be seen one by one, before and after insertion.
function drawBand(pen, plan, track) {
  const from = plan.spot(-0.4), to = plan.spot(track.end + 0.4), turn = plan.spot(Math.min(track.inserter, track.end + 0.4));
  const {height} = plan.pocket;
  for (const [a, b, ink] of [[from, turn, 'piece'], [turn, to, 'envelope']]) {
    if (plan.upright) pen.box(a.x - height, a.y, 2 * height, b.y - a.y, {ink: 'rule', fill: ink});
    else pen.box(a.x, a.y - height / 2, b.x - a.x, height, {ink: 'rule', fill: ink});
  }
}
