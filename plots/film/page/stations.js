// The stations, each by its look. A stock is drawn as full as it is; a bin, as full as it was made.

// drawStation draws station i of a line. What it is is in its name and its look alone, so that a
// kind nobody has heard of is a box with its name.
function drawStation(pen, plan, line, i, t) {
  const {track, now, stop} = line, station = track.stations[i], stands = stop?.station === i;
  const strong = stands ? {ink: phaseInk(stop.phase), width: 3.5} : {ink: 'ink', width: 1.2};
  const draw = LOOKS[station.look] ?? LOOKS.box;
  const frame = draw(pen, plan, station, strong);
  if (station.capacity > 0 && frame) drawStock(pen, plan, station, frame, track.level(i, now.cycle, t));
  drawName(pen, plan, i, station.name, stands);
}

// LOOKS draw a station and return the frame in which its stock is: left, top, width, height.
const LOOKS = {
  hopper: (pen, plan, station, how) => above(pen, plan, station, how, 0.72),
  sheets(pen, plan, station, how) {
    const frame = above(pen, plan, station, how, 1);
    for (const share of [0.25, 0.5, 0.75]) {
      const y = frame.top + frame.height * share;
      pen.path([frame.left, y, frame.left + frame.width, y], {ink: 'rule'});
    }
    return frame;
  },
  envelopes(pen, plan, station, how) {
    const frame = above(pen, plan, station, how, 0.72);
    flap(pen, frame.left, frame.top, frame.width, frame.height / 2);
    return frame;
  },
  eye(pen, plan, station, how) {
    const {x, y} = plan.spot(station.at, plan.upright ? 34 : 38);
    pen.path([x, y - 7, x + 8, y, x, y + 7, x - 8, y], {...how, closed: true});
    pen.disc(x, y, 2, how);
  },
  gate: (pen, plan, station, how) => below(pen, plan, station, how),
  exit(pen, plan, station, how) {
    const frame = below(pen, plan, station, how);
    flap(pen, frame.left, frame.top, frame.width, frame.height / 2);
    return frame;
  },
  inserter(pen, plan, station, how) {
    const {x, y} = plan.spot(station.at), {width, height} = plan.pocket;
    pen.box(x - width / 2 - 4, y - height / 2 - 5, width + 8, height + 10, {...how, closed: true});
    return station.capacity > 0 ? above(pen, plan, station, how, 0.72) : undefined;
  },
  belt(pen, plan, station, how) {
    const frame = below(pen, plan, station, how), x = frame.left + frame.width / 2;
    pen.path([x - 4, frame.top + 6, x + 4, frame.top + frame.height / 2, x - 4, frame.top + frame.height - 6], {ink: 'rule'});
    return frame;
  },
  box(pen, plan, station, how) {
    if (station.capacity > 0) return above(pen, plan, station, how, 1);
    const {x, y} = plan.spot(station.at, 36), wide = Math.min(24, plan.pocket.width);
    pen.box(x - wide / 2, y - 8, wide, 16, {...how, closed: true});
    return undefined;
  },
};

// above draws a hopper on its side of the track, so much narrower at its foot.
function above(pen, plan, station, how, foot) {
  const {x, y} = plan.spot(station.at, plan.upright ? 74 : 92);
  const width = plan.upright ? 56 : Math.min(32, Math.max(12, plan.step * 0.84)), height = plan.upright ? 20 : 66;
  const frame = {left: x - width / 2, top: y - height / 2, width, height, sideways: plan.upright};
  const inset = plan.upright ? 0 : width * (1 - foot) / 2;
  pen.path([frame.left, frame.top, frame.left + width, frame.top, x + width / 2 - inset, frame.top + height, frame.left + inset, frame.top + height], {...how, closed: true});
  frame.inset = inset;
  return frame;
}

// below draws a bin on the other side.
function below(pen, plan, station, how) {
  const {x, y} = plan.spot(station.at, plan.upright ? -37 : -40);
  const width = plan.upright ? 22 : Math.min(32, Math.max(12, plan.step * 0.84)), height = plan.upright ? 21 : 34;
  pen.box(x - width / 2, y - height / 2, width, height, {...how, closed: true});
  return {left: x - width / 2, top: y - height / 2, width, height, inset: 0};
}

function flap(pen, left, top, width, height) {
  pen.path([left, top, left + width / 2, top + height, left + width, top], {ink: 'soft', width: 1});
}

// drawStock fills a frame as far as the stock goes, with a dotted line where an operator is called.
function drawStock(pen, plan, station, frame, left) {
  const share = n => Math.max(0, Math.min(1, (station.bin ? station.capacity - n : n) / station.capacity));
  const low = left <= station.warning, full = share(left), at = share(station.warning);
  const {top, width, height, inset} = frame, x = frame.left;
  const edge = part => inset * (1 - part); // how far the sides lean in
  if (frame.sideways) {
    pen.fill(x + 1, top + 1, (width - 2) * full, height - 2, low ? 'low' : 'stock');
    pen.path([x + width * at, top, x + width * at, top + height], {dashes: [2, 2], ink: 'soft'});
  } else {
    const y = top + height * (1 - full), line = top + height * (1 - at);
    pen.path([x + edge(full) + 1, y, x + width - edge(full) - 1, y, x + width - inset - 1, top + height - 1, x + inset + 1, top + height - 1], {ink: null, fill: low ? 'low' : 'stock'});
    pen.path([x, line, x + width, line], {dashes: [2, 2], ink: 'soft'});
  }
  drawCount(pen, plan, station, frame, station.bin ? station.capacity - left : left, low);
}

// drawCount writes how much there is, where there is room for it.
function drawCount(pen, plan, station, frame, count, low) {
  const text = (low ? '▾' : '') + say(count);
  if (frame.sideways) {
    pen.text(text, frame.left + frame.width / 2, frame.top + 14, {align: 'center', bold: low});
  } else if (plan.upright) {
    pen.text(text, frame.left + frame.width / 2, frame.top + frame.height - 6, {align: 'center', bold: low});
  } else if (pen.width(text, true) <= plan.step * 1.1) {
    const y = station.bin ? frame.top + frame.height + 13 : frame.top - 5;
    pen.text(text, frame.left + frame.width / 2, y, {align: 'center', bold: low});
  } else if (low) {
    pen.text('▾', frame.left + frame.width / 2, frame.top - 4, {align: 'center', bold: true});
  }
}

function drawName(pen, plan, i, name, stands) {
  const {x, y, align} = plan.labels[i];
  pen.text(plan.upright ? fitted(pen, name, plan.width - x) : name, x, y, {align, bold: stands});
}

// fitted returns a text without as much of its middle as there is no room for: names often differ at
// their ends.
function fitted(pen, text, room) {
  let kept = [...text], short = text;
  while (kept.length > 2 && pen.width(short, true) > room) {
    const middle = Math.floor(kept.length / 2);
    kept = [...kept.slice(0, middle), ...kept.slice(middle + 1)];
    short = kept.slice(0, middle).join('') + '…' + kept.slice(middle).join('');
  }
  return short;
}
