// The controls: by pointer, by keys, by the address of the page.

const SPEEDS = [1, 2, 5, 10, 30, 60, 100, 300, 1000, 3000, 10000];
const FAST = 300; // from here on what stands and who works would flicker
const HANDLE = 4; // pixels: how wide the slider's handle is

class Player {
  constructor(root, film) {
    this.root = root;
    this.show = new Show(film);
    this.scene = new Scene(this.part('scene'), this.show);
    this.strip = new Strip(this.part('strip'), this.show);
    Object.assign(this, {time: 0, speed: 1, playing: false, followed: {set: 0, line: 0}, saidAt: 0, frame: 0});
    this.calm = matchMedia('(prefers-reduced-motion: reduce)');
    this.label(film);
    this.listen();
    this.redraw();
    this.goToAddress();
  }

  part(name) { return this.root.querySelector(`[data-part="${name}"]`); }

  // label writes what stays as it is.
  label(film) {
    this.part('title').textContent = film.title;
    this.part('about').textContent = film.about.join(' ');
    this.part('moment').max = Math.floor(this.show.lasts);
    for (const speed of SPEEDS) this.part('speed').add(new Option(`${say(speed)}×`, speed));
    film.reels[0].lines.forEach(({name}, k) => this.part('line').add(new Option(name, k)));
    this.part('line').hidden = film.reels[0].lines.length === 1;
    this.counters = new Map();
    for (const name of [...film.fates.slice(0, -1), 'good an hour', 'begun', 'stops']) {
      const box = document.createElement('div'), number = document.createElement('dd'), term = document.createElement('dt');
      term.textContent = name;
      box.append(term, number);
      this.part('counts').append(box);
      this.counters.set(name, number);
    }
  }

  listen() {
    const click = {play: () => this.play(!this.playing), previous: () => this.stop(-1), next: () => this.stop(1), back: () => this.step(-1), step: () => this.step(1)};
    for (const name in click) this.part(name).addEventListener('click', click[name]);
    this.part('moment').addEventListener('input', () => this.go(Number(this.part('moment').value), {quiet: true}));
    this.part('speed').addEventListener('change', () => this.hasten(Number(this.part('speed').value)));
    this.part('follow').addEventListener('submit', event => {
      event.preventDefault();
      this.follow(Number(this.part('set').value), Number(this.part('line').value));
    });
    document.addEventListener('keydown', event => this.key(event));
    addEventListener('hashchange', () => this.goToAddress());
    new ResizeObserver(() => this.redraw()).observe(this.root);
    for (const query of ['(prefers-color-scheme: dark)', '(prefers-contrast: more)']) matchMedia(query).addEventListener('change', () => this.redraw());
  }

  // key plays by the keyboard alone, unless what has the focus wants the key itself.
  key(event) {
    const keys = {
      ' ': () => this.play(!this.playing), k: () => this.play(!this.playing), ArrowRight: () => event.shiftKey ? this.go(this.time + 10) : this.step(1),
      ArrowLeft: () => event.shiftKey ? this.go(this.time - 10) : this.step(-1), n: () => this.stop(1), p: () => this.stop(-1),
      '+': () => this.faster(1), '-': () => this.faster(-1), Home: () => this.go(0), End: () => this.go(this.show.lasts),
    };
    const act = keys[event.key];
    const own = event.target.matches('input, select, textarea') || (event.key === ' ' && event.target.matches('button, summary, a'));
    if (!act || own || event.ctrlKey || event.altKey || event.metaKey || !this.part('keys').checked) return;
    event.preventDefault();
    act();
  }

  // redraw draws all anew: the width or the colours may be others.
  redraw() {
    this.scene.refresh();
    this.strip.draw(HANDLE / 2);
    this.draw();
  }

  // draw draws the moment.
  draw() {
    const view = this.show.view(this.time), {counts} = view, back = this.back(view);
    this.scene.draw(view, {speed: this.playing ? this.speed : 0, back, followed: this.followed});
    counts['good an hour'] = this.time > 0 ? Math.round(counts.good / this.time * 3600) : 0;
    for (const [name, element] of this.counters) write(element, say(counts[name] ?? 0));
    const [line] = view.lines, fast = back !== undefined;
    write(this.part('clock'), clockTime(this.show.clock + this.time));
    write(this.part('cycle'), [view.reel.name, view.lines.length > 1 ? '' : `cycle ${say(line.now.cycle)}`].filter(Boolean).join(', '));
    const states = view.lines.map(one => lead(view, one) + (fast ? sharesOf(one.track, back, view.t) : stateOf(one, view.t)));
    write(this.part('state'), view.between ? 'Being set up for the next pass.' : states.join(' '));
    this.part('state').dataset.phase = line.stop && !fast ? phaseInk(line.stop.phase) : 'running';
    this.part('moment').value = this.time;
    return view;
  }

  // back returns since when states are summed up, as they change too fast to be read; else undefined.
  back({t}) { return this.playing && this.speed >= FAST && t > 0 ? Math.max(0, t - this.speed) : undefined; }

  // tell writes what is on the screen, and has it read out where somebody has asked for the moment.
  tell(aloud) {
    const view = this.show.view(this.time), back = this.back(view);
    const sentences = back === undefined ? told(this.show, view, this.followed) : summed(view, back);
    this.part('told').replaceChildren(...sentences.map(sentence => Object.assign(document.createElement('p'), {textContent: sentence})));
    this.part('moment').setAttribute('aria-valuetext', clockTime(this.show.clock + this.time));
    this.saidAt = performance.now();
    if (aloud) write(this.part('aloud'), aloud === true ? `${clockTime(this.show.clock + this.time)}, ${say(view.counts.good)} good. ${sentences.join(' ')}` : aloud);
  }

  // go goes to a moment; quietly while the slider is drawn.
  go(time, {quiet = false} = {}) {
    this.time = Math.max(0, Math.min(this.show.lasts, time));
    this.draw();
    this.tell(!quiet);
  }

  play(on) {
    this.playing = on;
    cancelAnimationFrame(this.frame);
    this.part('play').textContent = on ? 'Pause' : 'Play';
    if (!on) {
      this.go(this.time);
      return;
    }
    if (this.time >= this.show.lasts) this.time = 0;
    this.tell(`Playing at ${say(this.speed)} times the speed.`);
    this.last = undefined;
    this.frame = requestAnimationFrame(now => this.tick(now));
  }

  // tick draws a frame: one a second for those who want little to move.
  tick(now) {
    if (!this.playing) return;
    this.frame = requestAnimationFrame(next => this.tick(next));
    if (this.calm.matches && this.last !== undefined && now - this.last < 1000) return;
    const since = this.last === undefined ? 0 : (now - this.last) / 1000;
    this.last = now;
    this.time = Math.min(this.show.lasts, this.time + since * this.speed);
    this.draw();
    if (performance.now() - this.saidAt > 1000) this.tell();
    if (this.time >= this.show.lasts) this.play(false);
  }

  halt() { if (this.playing) this.play(false); }

  // step goes on, or back, by cycles of the first line.
  step(by) {
    this.halt();
    const {reel, lines: [{track, now}]} = this.show.view(this.time);
    this.go(this.show.moment(reel, track.completed(Math.max(0, now.cycle + by))));
  }

  // stop goes to the next stop, or to the one before.
  stop(by) {
    this.halt();
    const times = this.show.stopTimes, k = by > 0 ? upTo(times, this.time + 1e-6) : upTo(times, this.time - 1e-3) - 1;
    if (k < 0 || k >= times.length) {
      this.tell(by > 0 ? 'There is no stop after this moment.' : 'There is no stop before this moment.');
      return;
    }
    this.go(times[k]);
  }

  faster(by) { this.hasten(SPEEDS[Math.max(0, Math.min(SPEEDS.length - 1, SPEEDS.indexOf(this.speed) + by))]); }

  hasten(speed) {
    this.speed = speed;
    this.part('speed').value = speed;
    this.tell(`${say(speed)} times the speed.`);
  }

  // follow follows a set of a line, from where something happens with it or else from where it is
  // begun; 0 follows none.
  follow(set, line = 0) {
    const {reel, lines} = this.show.view(this.time), followed = Number.isSafeInteger(set) && set > 0 ? set : 0;
    this.followed = {set: followed, line: lines[line] ? line : 0};
    this.part('set').value = followed || '';
    this.part('line').value = this.followed.line;
    this.halt();
    remember(followed ? `#set=${followed}` + (lines.length > 1 ? `&line=${this.followed.line + 1}` : '') : '');
    const {track} = lines[this.followed.line];
    if (!followed || followed > track.started) {
      this.go(this.time);
      return;
    }
    const first = upTo(track.notes.set, followed - 1);
    const cycle = track.notes.set[first] === followed ? track.notes.cycle[first] : followed;
    this.go(this.show.moment(reel, track.completed(cycle)));
  }

  // goToAddress goes where the address of the page says: #set=48211, with &line=2 where there are
  // several, or #at=3600 in seconds.
  goToAddress() {
    const asked = new URLSearchParams(location.hash.slice(1)), number = name => Number(asked.get(name));
    const set = number('set'), line = Math.max(0, number('line') - 1);
    if (set > 0 && (set !== this.followed.set || line !== this.followed.line)) this.follow(set, line);
    else this.go(number('at') > 0 ? number('at') : this.time, {quiet: true});
  }
}

// write writes a text where it is another one.
function write(element, text) { if (element.textContent !== text) element.textContent = text; }

// remember puts what is followed into the address, where a page has one of its own.
function remember(hash) {
  try {
    history.replaceState(null, '', hash || location.pathname + location.search);
  } catch {
    // a page within another has none
  }
}
