// The page shows the film that is in it. Who has a page of his own calls playFilm with the data.

// playFilm shows the film of some data, which are base64, in an element that has the parts.
async function playFilm(root, base64) { return new Player(root, filmOf(await unpacked(base64))); }

const data = document.querySelector('script[data-film]');
if (data) {
  playFilm(document.querySelector('[data-player]'), data.textContent).then(player => { globalThis.player = player; }, error => {
    document.querySelector('[data-part="state"]').textContent = `This browser cannot show the film: ${error.message}`;
  });
} else {
  globalThis.playFilm = playFilm;
}
