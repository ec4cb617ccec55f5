// Colours, which the style sheet has for light and for dark, and how text and shapes are drawn.

const INKS = ['paper', 'ink', 'soft', 'rule', 'track', 'piece', 'envelope', 'stock', 'low', 'condemned', 'flawed', 'crew',
  'running', 'restarting', 'working', 'waiting', 'starving', 'pausing'];

// inksOf returns the colours as they are now.
function inksOf(element) {
  const style = getComputedStyle(element);
  return Object.fromEntries(INKS.map(name => [name, style.getPropertyValue('--' + name).trim()]));
}

// PHASES are how phases of a stop are drawn; one that is not among them is drawn as waiting.
const PHASES = {waiting: 'waiting', working: 'working', restarting: 'restarting', 'channel too slow': 'starving', break: 'pausing',
  'waiting for a technician': 'waiting', 'a technician is at work': 'working'};
const phaseInk = phase => PHASES[phase] ?? 'waiting';

// Pen draws on a canvas in pixels of the page.
class Pen {
  constructor(canvas) {
    this.canvas = canvas;
    this.context = canvas.getContext('2d');
    this.refresh();
  }

  // refresh takes the colours as they are now.
  refresh() { this.inks = inksOf(this.canvas); }

  // size makes the drawing as wide as its place and so high, and clears it.
  size(height) {
    const sharp = devicePixelRatio || 1, width = this.canvas.clientWidth;
    const wide = Math.round(width * sharp), high = Math.round(height * sharp);
    if (this.canvas.width !== wide || this.canvas.height !== high) {
      this.canvas.width = wide;
      this.canvas.height = high;
      this.canvas.style.height = height + 'px';
    }
    this.context.setTransform(sharp, 0, 0, sharp, 0, 0);
    this.context.clearRect(0, 0, width, height);
    return width;
  }

  font(bold) { return (bold ? 'bold ' : '') + "12px 'Liberation Sans', system-ui, sans-serif"; }

  width(text, bold) {
    this.context.font = this.font(bold);
    return this.context.measureText(text).width;
  }

  text(text, x, y, {ink = 'ink', align = 'left', bold = false} = {}) {
    const c = this.context;
    c.font = this.font(bold);
    c.textAlign = align;
    c.fillStyle = this.inks[ink];
    c.fillText(text, x, y);
  }

  fill(x, y, width, height, ink) {
    this.context.fillStyle = this.inks[ink];
    this.context.fillRect(x, y, width, height);
  }

  // path draws through points, given one after the other; a colour to fill it makes it an area.
  path(points, {ink = 'ink', fill, width = 1.2, dashes = [], closed = Boolean(fill)} = {}) {
    const c = this.context;
    c.beginPath();
    for (let i = 0; i < points.length; i += 2) c.lineTo(points[i], points[i + 1]);
    if (closed) c.closePath();
    if (fill) {
      c.fillStyle = this.inks[fill];
      c.fill();
    }
    if (!ink) return;
    c.strokeStyle = this.inks[ink];
    c.lineWidth = width;
    c.setLineDash(dashes);
    c.stroke();
    c.setLineDash([]);
  }

  box(x, y, width, height, how) { this.path([x, y, x + width, y, x + width, y + height, x, y + height], {closed: true, ...how}); }

  disc(x, y, radius, {ink = 'ink', fill, width = 1.2} = {}) {
    const c = this.context;
    c.beginPath();
    c.arc(x, y, radius, 0, 2 * Math.PI);
    if (fill) {
      c.fillStyle = this.inks[fill];
      c.fill();
    }
    c.strokeStyle = this.inks[ink];
    c.lineWidth = width;
    c.stroke();
  }
}
