// Runs in a browser's page: shows one sheet after another and writes down what the browser itself
// lays out. One line each in <pre id="seen">, fields after tabs, texts percent-encoded:
//   sheet NAME | page WIDTH HEIGHT VIEWBOX | label ANCHOR X Y W H |
//   text ROLE ANCHOR X Y W H SIZE COLOUR LENGTH NATURAL STRING | leader ANCHOR MATRIX D |
//   end ANCHOR HIT | ink LEFT TOP RIGHT BOTTOM | under ANCHOR PIXELS | fault TEXT
// Lengths in the sheet's own units (mm); a text's size too. The last line is "done".
'use strict';
const waiting = [];
function sheet(name, xml, rasters) { waiting.push({name, xml, rasters}); }

const lines = [];
const say = (...fields) => lines.push(fields.map(f =>
  typeof f === 'number' ? f.toFixed(5) : encodeURIComponent(f)).join('\t'));

// The box of an element in the sheet's units, by the browser's own layout.
function boxOf(element, toSheet) {
  const b = element.getBBox();
  const m = toSheet.multiply(element.getScreenCTM());
  const xs = [], ys = [];
  for (const [x, y] of [[b.x, b.y], [b.x + b.width, b.y], [b.x, b.y + b.height],
                        [b.x + b.width, b.y + b.height]]) {
    xs.push(m.a * x + m.c * y + m.e);
    ys.push(m.b * x + m.d * y + m.f);
  }
  const left = Math.min(...xs), top = Math.min(...ys);
  return [left, top, Math.max(...xs) - left, Math.max(...ys) - top];
}

// Ends of a leader's parts, in the order drawn: the point before each M and the last point.
function endsOf(d) {
  return d.split('M').filter(part => part.trim() !== '').map(part => {
    const numbers = part.match(/-?[0-9.]+(?:e-?[0-9]+)?/g).map(Number);
    return {x: numbers[numbers.length - 2], y: numbers[numbers.length - 1]};
  });
}

// Whether a point of the sheet lies on what the browser paints for a drawn anchor: yes, no, or
// unknown where the anchor is no plain shape.
function hits(svg, anchor, point, toSheet) {
  const marked = [...svg.querySelectorAll('.pw-figure [data-anchor]')].filter(
    e => e.getAttribute('data-anchor') === anchor);
  if (marked.length === 0) return 'unknown';
  let answer = 'unknown';
  for (const element of marked) {
    const shapes = element instanceof SVGGeometryElement
      ? [element] : [...element.querySelectorAll('*')].filter(e => e instanceof SVGGeometryElement);
    for (const shape of shapes) {
      const local = toSheet.multiply(shape.getScreenCTM()).inverse();
      const p = svg.createSVGPoint();
      p.x = point.x;
      p.y = point.y;
      const at = p.matrixTransform(local);
      const paint = getComputedStyle(shape);
      const stroked = paint.stroke !== 'none';
      // What paints nothing, a hotspot laid over the art, counts by its outline.
      const filled = paint.fill !== 'none' || !stroked;
      if ((filled && shape.isPointInFill(at)) || (stroked && shape.isPointInStroke(at)))
        return 'yes';
      answer = 'no';
    }
  }
  return answer;
}

const pixelsPerMm = 2;

async function raster(xml, width, height) {
  const image = new Image();
  await new Promise((resolve, reject) => {
    image.onload = resolve;
    image.onerror = () => reject(new Error('the browser does not show the sheet as an image'));
    image.src = 'data:image/svg+xml;charset=utf-8,' + encodeURIComponent(xml);
  });
  const canvas = document.createElement('canvas');
  canvas.width = Math.round(width * pixelsPerMm);
  canvas.height = Math.round(height * pixelsPerMm);
  const context = canvas.getContext('2d', {willReadFrequently: true});
  context.drawImage(image, 0, 0, canvas.width, canvas.height);
  return context.getImageData(0, 0, canvas.width, canvas.height);
}

// The white around everything drawn, mm.
function inkMargins(pixels) {
  let left = pixels.width, top = pixels.height, right = -1, bottom = -1;
  for (let y = 0; y < pixels.height; ++y)
    for (let x = 0; x < pixels.width; ++x) {
      const at = 4 * (y * pixels.width + x);
      const a = pixels.data[at + 3] / 255;
      const darkest = Math.min(pixels.data[at], pixels.data[at + 1], pixels.data[at + 2]);
      if (a * (255 - darkest) < 8) continue;
      left = Math.min(left, x);
      right = Math.max(right, x);
      top = Math.min(top, y);
      bottom = Math.max(bottom, y);
    }
  return [left, top, pixels.width - 1 - right, pixels.height - 1 - bottom].map(
    v => v / pixelsPerMm);
}

function paintedIn(pixels, [x, y, w, h]) {
  let count = 0;
  const first = v => Math.max(0, Math.ceil(v * pixelsPerMm));
  for (let py = first(y); (py + 1) / pixelsPerMm <= y + h && py < pixels.height; ++py)
    for (let px = first(x); (px + 1) / pixelsPerMm <= x + w && px < pixels.width; ++px)
      if (pixels.data[4 * (py * pixels.width + px) + 3] >= 128) ++count;
  return count;
}

async function measure({name, xml, rasters}) {
  say('sheet', name);
  const parsed = new DOMParser().parseFromString(xml, 'image/svg+xml');
  if (parsed.querySelector('parsererror')) {
    say('fault', 'the browser cannot read it: ' + parsed.documentElement.textContent);
    return;
  }
  const svg = document.importNode(parsed.documentElement, true);
  document.getElementById('stage').appendChild(svg);
  try {
    say('page', svg.getAttribute('width'), svg.getAttribute('height'),
        svg.getAttribute('viewBox'));
    const toSheet = svg.getScreenCTM().inverse();
    const boxes = [];
    for (const label of svg.querySelectorAll('.pw-label')) {
      const box = boxOf(label, toSheet);
      boxes.push([label.getAttribute('data-anchor'), box]);
      say('label', label.getAttribute('data-anchor'), ...box);
    }
    for (const text of svg.querySelectorAll('text')) {
      if (text.closest('.pw-figure')) continue;
      const label = text.closest('.pw-label');
      const role = label ? 'pw-label'
        : (text.closest('[class^=pw-]') || svg).getAttribute('class') || 'none';
      const m = toSheet.multiply(text.getScreenCTM());
      const style = getComputedStyle(text);
      const size = parseFloat(style.fontSize) * Math.hypot(m.a, m.b);
      const length = parseFloat(text.getAttribute('textLength') || '0');
      const box = boxOf(text, toSheet);
      const free = text.cloneNode(true);
      free.removeAttribute('textLength');
      text.parentNode.appendChild(free);
      const natural = free.getComputedTextLength();
      free.remove();
      say('text', role, label ? label.getAttribute('data-anchor') : '', ...box, size, style.fill,
          length, natural, text.textContent);
    }
    for (const leader of svg.querySelectorAll('.pw-leader')) {
      const anchor = leader.getAttribute('data-anchor');
      const m = toSheet.multiply(leader.getScreenCTM());
      const identity = Math.abs(m.a - 1) + Math.abs(m.b) + Math.abs(m.c) + Math.abs(m.d - 1) +
        Math.abs(m.e) + Math.abs(m.f) < 1e-3;
      say('leader', anchor, identity ? 'identity' : 'moved', leader.getAttribute('d'));
      for (const end of endsOf(leader.getAttribute('d')))
        say('end', anchor, hits(svg, anchor, end, toSheet));
    }
    for (const e of svg.querySelectorAll('*'))
      for (const a of e.attributes)
        if (a.localName.toLowerCase().startsWith('on')) say('fault', 'a handler: ' + a.name);
    if (svg.querySelector('script, foreignObject, iframe')) say('fault', 'a script or foreign content');
    if (rasters) {
      const [x, y, width, height] = svg.getAttribute('viewBox').split(' ').map(Number);
      say('ink', ...inkMargins(await raster(xml, width, height)));
      if (boxes.length > 0) {
        const bare = parsed.documentElement.cloneNode(true);
        for (const child of [...bare.children])
          if (child.getAttribute('class') !== 'pw-figure') child.remove();
        const pixels = await raster(new XMLSerializer().serializeToString(bare), width, height);
        for (const [anchor, b] of boxes)
          say('under', anchor, paintedIn(pixels, [b[0] - x, b[1] - y, b[2], b[3]]));
      }
    }
  } catch (error) {
    say('fault', String(error));
  }
  svg.remove();
}

window.addEventListener('load', async () => {
  await document.fonts.ready;
  for (const one of waiting) await measure(one);
  lines.push('done');
  document.getElementById('seen').textContent = lines.join('\n');
});
