// Words for whoever would otherwise see an empty page: too old a browser, or a page that does not start.
// Written in the JavaScript of 2009, so that any browser can read it; loaded before everything else.
(function () {
  var PATIENCE = 20000;

  /* Stands for the oldest versions in the README: each of these came with one of them or shortly before. */
  function old() {
    return !(
      'noModule' in document.createElement('script') &&
      window.customElements &&
      window.CompressionStream &&
      window.structuredClone &&
      window.CSS &&
      CSS.supports &&
      CSS.supports('color', 'color-mix(in srgb, red, blue)')
    );
  }

  function started() {
    var app = document.querySelector('cw-app');
    return Boolean(app && app.shadowRoot && app.shadowRoot.querySelector('cw-shell'));
  }

  function tell(words) {
    var place = document.getElementById('first-words');
    if (!place) {
      place = document.createElement('div');
      place.id = 'first-words';
      place.setAttribute('role', 'alert');
      document.body.insertBefore(place, document.body.firstChild);
    }
    for (var i = 0; i < words.length; i++) {
      var line = document.createElement('p');
      line.appendChild(document.createTextNode(words[i]));
      place.appendChild(line);
    }
  }

  function clear() {
    var place = document.getElementById('first-words');
    if (place) place.parentNode.removeChild(place);
  }

  function tooOld() {
    tell([
      'This browser is too old for Clampwright: it needs Chrome or Edge 111, Firefox 114, Safari 16.4, or a later one.',
      'What is kept in this browser is not touched. The command line does all the same work without a browser.',
    ]);
  }

  var faults = [];
  var waiting = true;
  function heard(text) {
    if (waiting && text && faults.length < 3) faults.push(String(text).slice(0, 200));
  }
  window.onerror = function (message) {
    heard(message);
  };
  if (window.addEventListener)
    window.addEventListener('unhandledrejection', function (event) {
      heard(event.reason && event.reason.message);
    });

  function look() {
    waiting = false;
    if (started()) return;
    clear();
    if (old()) return tooOld();
    tell(
      [
        'Clampwright has not started. Load the page again; if that does not help, try another browser.',
        'What is kept in this browser is not touched.',
      ].concat(faults.length ? ['What the browser says: ' + faults.join(' / ')] : [])
    );
    var times = 0;
    var timer = setInterval(function () {
      times += 1;
      if (started()) clear();
      if (started() || times > 600) clearInterval(timer);
    }, 500);
  }

  function ready() {
    if (old()) tooOld();
    setTimeout(look, old() ? 4000 : PATIENCE);
  }
  if (document.readyState === 'loading' && document.addEventListener)
    document.addEventListener('DOMContentLoaded', ready);
  else window.onload = ready;
})();
