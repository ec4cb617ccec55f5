// The data of a film: base64 of gzip of a head, which is JSON, and columns of numbers.

// unpacked returns the bytes of data in base64.
async function unpacked(base64) {
  const packed = Uint8Array.from(atob(base64.trim()), c => c.charCodeAt(0));
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream('gzip'));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

// filmOf returns the film in the bytes: its head, and each table where it belongs, as columns by
// name with their count.
function filmOf(bytes) {
  const from = new Reader(bytes);
  const film = JSON.parse(from.text(from.natural()));
  for (const table of film.tables) {
    const reel = film.reels[table.reel];
    const owner = table.line < 0 ? reel : reel.lines[table.line];
    const columns = owner[table.name] = {count: table.rows};
    for (const {name, as} of table.columns) columns[name] = from.column(as, table.rows, film.words);
  }
  return film;
}

// Reader reads bytes from the first to the last.
class Reader {
  constructor(bytes) {
    this.bytes = bytes;
    this.view = new DataView(bytes.buffer, bytes.byteOffset);
    this.at = 0;
  }

  text(length) {
    const text = new TextDecoder().decode(this.bytes.subarray(this.at, this.at + length));
    this.at += length;
    return text;
  }

  // natural reads a number in groups of seven bits, the lowest first.
  natural() {
    let value = 0, weight = 1, byte;
    do {
      byte = this.bytes[this.at++];
      value += (byte & 127) * weight;
      weight *= 128;
    } while (byte > 127);
    return value;
  }

  // whole reads a number whose lowest bit is its sign.
  whole() {
    const n = this.natural();
    return n % 2 ? -(n + 1) / 2 : n / 2;
  }

  column(as, rows, words) {
    if (as === 'exact') return Array.from({length: rows}, () => this.exact());
    let last = 0;
    const values = Array.from({length: rows}, () => last += this.whole());
    if (as === 'moment') return values.map(ms => ms / 1000);
    if (as === 'word') return values.map(place => words[place]);
    return values;
  }

  exact() {
    this.at += 8;
    return this.view.getFloat64(this.at - 8, true);
  }
}
