// The strip of the whole film: for every moment how much of the time each line stood, and in which
// phase. It lies under the slider that moves to a moment.

const STRIP_LINE = 34;
const STACK = ['restarting', 'working', 'waiting', 'starving', 'pausing']; // from the bottom

class Strip {
  constructor(canvas, show) {
    this.pen = new Pen(canvas);
    this.show = show;
  }

  // draw draws the strip. Its ends keep clear of the edges by half the width of the slider's handle.
  draw(inset) {
    const {pen, show} = this, lines = Math.max(...show.reels.map(reel => reel.tracks.length));
    pen.refresh();
    const width = pen.size(lines * STRIP_LINE + 16) - 2 * inset, scale = width / show.lasts;
    for (const reel of show.reels) {
      reel.tracks.forEach((track, row) => {
        const left = inset + reel.begins * scale, wide = reel.lasts * scale, foot = (row + 1) * STRIP_LINE;
        pen.fill(left, foot - STRIP_LINE + 4, wide, STRIP_LINE - 4, 'running');
        for (let x = 0; x < wide; x++) this.column(track, x / scale, 1 / scale, left + x, foot);
      });
    }
    this.hours(width, scale, inset, lines * STRIP_LINE);
  }

  // column draws how a line stood for a pixel of time.
  column(track, from, lasts, x, foot) {
    const shares = track.phases(from, from + lasts);
    let y = foot;
    for (const ink of STACK) {
      let seconds = 0;
      for (const [phase, of] of shares) if (phaseInk(phase) === ink) seconds += of;
      const height = (STRIP_LINE - 4) * Math.min(1, seconds / lasts);
      this.pen.fill(x, y -= height, 1.05, height, ink);
    }
  }

  // hours writes the time of the day, as often as there is room.
  hours(width, scale, inset, foot) {
    const steps = [60, 300, 600, 1800, 3600, 7200, 14400, 28800, 86400], step = steps.find(s => s * scale >= 52) ?? 604800;
    const {clock, lasts} = this.show;
    for (let at = Math.ceil(clock / step) * step; at <= clock + lasts; at += step) {
      const x = inset + (at - clock) * scale, align = x < 20 ? 'left' : x > width - 20 ? 'right' : 'center';
      this.pen.fill(x, foot, 1, 3, 'soft');
      this.pen.text(clockTime(at).slice(0, 5), x, foot + 14, {ink: 'soft', align});
    }
  }
}
