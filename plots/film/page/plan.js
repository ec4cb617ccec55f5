// Where things stand: along the track in pitches, and across it in pixels, which are above 0 on the
// side of the hoppers. On a narrow page the track runs down, so that every name has its place.

const NARROW = 620;

class Plan {
  constructor(track, pen, top, width) {
    this.upright = width < NARROW;
    this.width = width;
    if (this.upright) this.down(track, top); else this.along(track, pen, top, width);
  }

  // down plans a track that runs down the page.
  down(track, top) {
    this.step = 27;
    this.pocket = {width: 40, height: 19};
    this.origin = {x: 118, y: top + 34};
    this.rail = -64;
    this.labels = [];
    let free = 0;
    for (const station of track.stations) {
      const y = Math.max(free, this.origin.y + station.at * this.step + 4);
      this.labels.push({x: this.origin.x + 84, y, align: 'left'});
      free = y + 15;
    }
    this.bottom = Math.max(free, this.origin.y + track.end * this.step + 30);
  }

  // along plans a track that runs from left to right, with the names below it in as many rows as
  // they need.
  along(track, pen, top, width) {
    const edge = 44;
    this.step = (width - 2 * edge) / Math.max(1, track.end);
    this.pocket = {width: Math.min(38, this.step * 0.8), height: 20};
    this.origin = {x: edge, y: top + 138};
    this.rail = -78;
    const rows = [], first = this.origin.y + 112;
    this.labels = track.stations.map(station => {
      const half = pen.width(station.name, true) / 2 + 5, middle = this.origin.x + station.at * this.step;
      const x = Math.min(width - half, Math.max(half, middle));
      let row = rows.findIndex(end => end <= x - half);
      if (row < 0) row = rows.push(0) - 1;
      rows[row] = x + half;
      return {x, y: first + row * 16, align: 'center', from: middle};
    });
    this.bottom = first + rows.length * 16 - 4;
  }

  // spot returns where something is.
  spot(along, across = 0) {
    const {x, y} = this.origin;
    return this.upright ? {x: x - across, y: y + along * this.step} : {x: x + along * this.step, y: y - across};
  }
}
