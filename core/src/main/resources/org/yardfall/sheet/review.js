'use strict';
(function () {
  const data = JSON.parse(document.getElementById('data').textContent);
  const SVG = 'http://www.w3.org/2000/svg';
  const WATER = '#0072B2', OUT = '#0072B2', IN = '#D55E00';
  const unit = data.lengthM;
  const byId = id => document.getElementById(id);

  // ---- text: always as text, never as markup
  function el(tag, text, cls) {
    const e = document.createElement(tag);
    if (text !== undefined) e.textContent = text;
    if (cls) e.className = cls;
    return e;
  }
  function svg(tag, attributes, text) {
    const e = document.createElementNS(SVG, tag);
    for (const name in attributes) e.setAttribute(name, attributes[name]);
    if (text !== undefined) e.textContent = text;
    return e;
  }
  function list(texts, cls) {
    const ul = el('ul', undefined, cls ? 'plain' : undefined);
    texts.forEach(t => ul.appendChild(el('li', t, cls)));
    return ul;
  }
  function table(heads, rows, numeric) {
    const t = el('table'), head = el('tr');
    heads.forEach(h => head.appendChild(el('th', h)));
    t.appendChild(el('thead')).appendChild(head);
    const body = t.appendChild(el('tbody'));
    rows.forEach(r => {
      const tr = body.appendChild(el('tr'));
      r.forEach((c, i) => tr.appendChild(el('td', c, numeric.includes(i) ? 'n' : 'text')));
    });
    return t;
  }
  const number = (m, decimals) => (m / unit).toFixed(decimals);

  byId('lot').textContent = data.lot ? 'Lot ' + data.lot : '';

  // ---- map: metres of the working plane; latitude is north, longitude is east
  const map = L.map('map', { crs: L.CRS.Simple, zoomSnap: 0.25, zoomDelta: 0.5, minZoom: -4,
    maxZoom: 9, attributionControl: false, zoomAnimation: false, fadeAnimation: false });
  // Places to a fraction of a pixel, so that lines and pictures lie exactly on each other.
  map.latLngToLayerPoint = p => map.project(L.latLng(p))._subtract(map.getPixelOrigin());
  L.Polyline.mergeOptions({ smoothFactor: 0 });
  L.SVG.include({ _reset() { this._update(); Object.values(this._layers).forEach(l => l._reset()); } });
  const at = xy => L.latLng(xy[1], xy[0]);
  const bounds = b => L.latLngBounds(at(b[0]), at(b[1]));
  L.control.scale({ metric: data.length === 'm', imperial: data.length === 'ft', maxWidth: 160 }).addTo(map);
  map.createPane('pictures').style.zIndex = 200;
  map.createPane('depths').style.zIndex = 350;
  map.createPane('routes').style.zIndex = 450;
  map.createPane('marks').style.zIndex = 470;

  const groups = byId('layers');
  function toggle(title, layer, on, key, opacity) {
    const label = groups.appendChild(el('label'));
    const box = el('input');
    box.type = 'checkbox';
    box.checked = on;
    box.addEventListener('change', () => box.checked ? layer.addTo(map) : layer.remove());
    label.appendChild(box);
    if (key) label.appendChild(key);
    label.appendChild(el('span', title));
    if (opacity) {
      const slide = el('input', undefined, 'opacity');
      slide.type = 'range'; slide.min = 0; slide.max = 100; slide.value = opacity.value * 100;
      slide.setAttribute('aria-label', 'Opacity of ' + title);
      slide.addEventListener('input', () => opacity.set(slide.value / 100));
      label.appendChild(slide);
    }
    if (on) layer.addTo(map);
    return box;
  }
  function key(style, kind) {
    const k = svg('svg', { class: 'key', viewBox: '0 0 26 14', 'aria-hidden': 'true' });
    const shape = kind === 'area' ? svg('rect', { x: 3, y: 2, width: 20, height: 10 })
      : kind === 'point' ? svg('circle', { cx: 13, cy: 7, r: 4.5 })
      : svg('line', { x1: 1, y1: 7, x2: 25, y2: 7 });
    shape.setAttribute('stroke', style.color);
    shape.setAttribute('stroke-width', Math.min(4, style.weight));
    shape.setAttribute('fill', style.fill ? style.fillColor : 'none');
    shape.setAttribute('fill-opacity', style.fill ? style.fillOpacity : 0);
    if (style.dashArray) shape.setAttribute('stroke-dasharray', '4 3');
    k.appendChild(shape);
    return k;
  }
  function tip(lines) {
    const box = el('div');
    lines.forEach(l => box.appendChild(el('div', l.length > 160 ? l.slice(0, 160) + '…' : l)));
    return box;
  }

  const photo = data.pictures.some(p => p.id === 'photo');
  data.pictures.forEach(p => {
    const depths = p.id === 'depths';
    const value = depths ? 0.85 : p.id === 'photo' ? 1 : 0.7;
    const image = L.imageOverlay(p.uri, bounds(p.bounds), { pane: depths ? 'depths' : 'pictures',
      opacity: value, alt: p.title, className: 'picture-' + p.id });
    toggle(depths ? 'Depth of the standing water' : p.title, image,
      depths || p.id === 'photo' || !photo, null, { value, set: v => image.setOpacity(v) });
    if (depths) {
      const legend = groups.appendChild(el('div', undefined, 'legend'));
      data.depths.forEach(d => {
        const s = legend.appendChild(el('span'));
        s.appendChild(key({ color: d.color, weight: 1, fill: true, fillColor: d.color, fillOpacity: 1 }, 'area'));
        s.appendChild(document.createTextNode(d.words));
      });
    }
  });

  function shape(f, extra) {
    const style = Object.assign({}, f.style, extra);
    if (f.kind === 'area') return L.polygon(f.c.map(r => r.map(at)), style);
    if (f.kind === 'line') return L.polyline(f.c[0].map(at), style);
    return L.circleMarker(at(f.c[0][0]), Object.assign({ radius: 7 }, style,
      { fill: true, fillOpacity: 1 }));
  }
  data.layers.forEach(l => {
    if (!l.features.length) return;
    const group = L.layerGroup(l.features.map(f => {
      const s = shape(f, { bubblingMouseEvents: true, className: 'layer-' + l.id });
      if (f.tip.length) s.bindTooltip(tip(f.tip), { sticky: true });
      return s;
    }));
    toggle(l.title, group, l.on, key(l.features[0].style, l.features[0].kind));
  });

  // ---- inflow: arrows as wide as their volume
  function arrow(f) {
    const w = Math.max(2, 16 * f.share), length = 26 + 2 * w, head = w + 9;
    const box = svg('svg', { width: 2 * length, height: 2 * length, viewBox: [-length, -length, 2 * length, 2 * length].join(' ') });
    const top = f.in ? 0 : -length;
    const points = [[0, top], [head / 2 + 2, top + head], [w / 2, top + head], [w / 2, top + length],
      [-w / 2, top + length], [-w / 2, top + head], [-head / 2 - 2, top + head]];
    box.appendChild(svg('polygon', { points: points.map(p => p.join(',')).join(' '), fill: f.in ? IN : OUT,
      stroke: '#fff', 'stroke-width': 1, transform: 'rotate(' + f.bearing + ')' }));
    return { node: box, size: length };
  }
  const flows = L.layerGroup();
  data.flows.forEach(f => {
    f.stretch.forEach(s => shape(s).addTo(flows));
    const a = arrow(f);
    const icon = L.divIcon({ html: a.node, className: 'flow', iconSize: [2 * a.size, 2 * a.size] });
    const marker = L.marker(at(f.at), { icon, keyboard: false, interactive: false }).addTo(flows);
    if (f.share < 0.01) return; // too little to name: the table has it
    // Isolated, so that a name read from right to left does not turn what follows it.
    const words = f.id + (f.neighbour ? (f.in ? ' from ' : ' to ') + '\u2068' + f.neighbour + '\u2069' : '') + ': ' + f.volume;
    marker.bindTooltip(tip([words]), { permanent: true, direction: f.bearing > 30 && f.bearing < 150 ? 'left' : 'right',
        className: 'name', offset: [f.bearing > 30 && f.bearing < 150 ? -10 : 10, f.in ? -14 : 14] });
  });
  function clear() {
    const placed = [], room = byId('map').getBoundingClientRect();
    document.querySelectorAll('.leaflet-tooltip.name').forEach(t => {
      const a = t.getBoundingClientRect();
      const inside = a.left >= room.left && a.right <= room.right && a.top >= room.top && a.bottom <= room.bottom;
      const free = inside && placed.every(b => a.right < b.left || a.left > b.right || a.bottom < b.top || a.top > b.bottom);
      t.classList.toggle('hidden', !free);
      if (free) placed.push(a);
    });
  }
  map.on('moveend zoomend layeradd', () => requestAnimationFrame(clear));
  if (data.flows.length) toggle('Water across the property line', flows, true,
    key({ color: IN, weight: 4 }, 'line'));

  // ---- routes
  let chosen = null, cursor = null, line = null;
  const spot = L.circleMarker([0, 0], { radius: 8, color: '#000', weight: 2, fillColor: '#F0E442',
    fillOpacity: 1, pane: 'marks', interactive: false });
  const drawn = data.routes.map(r => {
    const group = L.layerGroup();
    const lines = r.lines.map((l, i) => {
      const path = l.stations.map(s => at([s.x, s.y]));
      const edge = L.polyline(path, { color: '#000', weight: 7, pane: 'routes', interactive: false }).addTo(group);
      const core = L.polyline(path, { color: r.color, weight: 4, pane: 'routes' }).addTo(group);
      const wide = L.polyline(path, { color: '#000', opacity: 0, weight: 24, pane: 'routes', className: 'route-' + r.id }).addTo(group);
      wide.on('click', () => choose(r, i));
      wide.on('mousemove', e => { if (chosen === r) { line = l; move(nearest(l, e.latlng)); draw(); } });
      return { edge, core };
    });
    toggle(r.id + ', ' + r.kind, group, true, key({ color: r.color, weight: 4 }, 'line'));
    return { route: r, lines };
  });
  function nearest(l, p) {
    let best = Infinity, found = 0;
    for (let i = 1; i < l.stations.length; i++) {
      const a = l.stations[i - 1], b = l.stations[i];
      const dx = b.x - a.x, dy = b.y - a.y, d2 = dx * dx + dy * dy;
      const t = d2 ? Math.max(0, Math.min(1, ((p.lng - a.x) * dx + (p.lat - a.y) * dy) / d2)) : 0;
      const d = Math.hypot(p.lng - a.x - t * dx, p.lat - a.y - t * dy);
      if (d < best) { best = d; found = a.s + t * (b.s - a.s); }
    }
    return found;
  }
  function between(points, s) {
    for (let i = 1; i < points.length; i++) {
      if (s <= points[i][0] || i === points.length - 1) {
        const run = points[i][0] - points[i - 1][0];
        const t = run ? Math.max(0, Math.min(1, (s - points[i - 1][0]) / run)) : 1;
        return points[i - 1][1] + t * (points[i][1] - points[i - 1][1]);
      }
    }
    return points.length ? points[0][1] : NaN;
  }
  const along = (l, field) => l.stations.map(s => [s.s, s[field]]);

  function choose(r, index) {
    chosen = r;
    line = r.lines[index || 0];
    drawn.forEach(d => d.lines.forEach(p => {
      const on = d.route === r;
      p.edge.setStyle({ weight: on ? 7 : 0, opacity: on ? 1 : 0 });
      p.core.setStyle({ weight: on ? 4 : 3, dashArray: on ? null : '7 6', opacity: on ? 1 : 0.9 });
    }));
    document.querySelectorAll('#routes button').forEach(b => b.setAttribute('aria-pressed', b.value === r.id));
    cursor = null;
    spot.remove();
    details(r);
    ledger(r);
    draw();
  }
  function ledger(r) {
    const box = byId('ledger');
    if (!data.ledger.length) return box.replaceChildren(el('p', 'None.'));
    const known = r && Object.keys(r.after).length;
    const t = table(['', 'Across the line', 'Width', 'Area', 'Peak', 'Volume'].concat(known ? ['with ' + r.id] : []),
      data.ledger.map(f => [f[0], f[1], f[2], f[3], f[5], f[4]].concat(known ? [r.after[f[0]] || '–'] : [])), [2, 3, 4, 5, 6]);
    data.ledger.forEach((f, i) => {
      if (f[6]) t.tBodies[0].rows[i].cells[1].appendChild(el('div', f[6], 'small'));
    });
    box.replaceChildren(t);
  }
  function details(r) {
    const box = byId('route');
    box.replaceChildren(el('h2', r.id + ', ' + r.kind));
    [['reasons', 'Why'], ['findings', 'Water and pipe'], ['crosses', 'It passes']].forEach(p => {
      if (r[p[0]].length) { box.appendChild(el('h2', p[1])); box.appendChild(list(r[p[0]])); }
    });
    r.lines.forEach(l => {
      box.appendChild(el('h2', 'Stations, ' + l.name));
      const t = table(['Station', 'Ground', 'Invert', 'Depth', 'Cover', 'Grade', 'Built'],
        l.stations.map(s => s.row), [0, 1, 2, 3, 4, 5]);
      const wrap = box.appendChild(el('div'));
      wrap.className = 'scroll';
      wrap.appendChild(t);
    });
    if (r.quantities.length) {
      box.appendChild(el('h2', 'Quantities'));
      box.appendChild(table(['Item', 'Quantity', 'How'], r.quantities, [1]));
    }
  }

  // ---- profile
  function draw() {
    const box = byId('profile');
    const focused = box.querySelector('svg') && document.activeElement === box.querySelector('svg');
    box.replaceChildren();
    if (!line) return;
    const head = box.appendChild(el('h2', 'Profile, ' + line.name));
    if (chosen.lines.length > 1) {
      const bar = box.appendChild(el('p'));
      chosen.lines.forEach(l => {
        const b = bar.appendChild(el('button', l.name));
        b.type = 'button';
        b.setAttribute('aria-pressed', l === line);
        b.addEventListener('click', () => { line = l; cursor = null; spot.remove(); draw(); });
      });
    }
    const W = Math.max(300, box.clientWidth), left = 52, right = 12, top = 44, bottom = 34, plot = 190;
    const total = line.stations[line.stations.length - 1].s;
    const levels = line.ground.map(p => p[1]).concat(line.water.map(p => p[1]), line.stations.map(s => s.invert));
    let low = Math.min(...levels), high = Math.max(...levels);
    const pad = Math.max(0.1, 0.1 * (high - low));
    low -= pad; high += pad;
    const px = (W - left - right) / total, py = plot / (high - low);
    const X = s => left + s * px, Y = z => top + (high - z) * py;
    const picture = svg('svg', { viewBox: '0 0 ' + W + ' ' + (top + plot + bottom), height: top + plot + bottom,
      tabindex: 0, role: 'img', 'aria-label': 'Profile of ' + line.name + '. Left and right arrow keys move along it.' });
    const path = (points, attributes) => picture.appendChild(svg('polyline',
      Object.assign({ points: points.map(p => X(p[0]).toFixed(1) + ',' + Y(p[1]).toFixed(1)).join(' '), fill: 'none' }, attributes)));
    grid(picture, total, low, high, X, Y, left, W - right, top, top + plot);
    for (let i = 1; i < line.stations.length; i++) {
      const a = line.stations[i - 1], b = line.stations[i];
      if (a.span !== 'open') picture.appendChild(svg('rect', { x: X(a.s), y: top, width: Math.max(1, X(b.s) - X(a.s)), height: plot, fill: '#888', opacity: a.span === 'bored' ? 0.25 : 0.12 }));
      picture.appendChild(svg('polygon', { fill: chosen.color, stroke: chosen.color, 'stroke-width': 0.4,
        points: [[a.s, a.invert], [b.s, b.invert], [b.s, b.invert + a.pipe], [a.s, a.invert + a.pipe]].map(p => X(p[0]).toFixed(1) + ',' + Y(p[1]).toFixed(1)).join(' ') }));
    }
    [0, 1].forEach(top => path(line.stations.flatMap((s, i) => i === 0 ? [[s.s, s.invert + top * s.pipe]]
      : [[s.s, s.invert + top * line.stations[i - 1].pipe], [s.s, s.invert + top * s.pipe]]), { stroke: '#000', 'stroke-width': 0.8 }));
    path(line.ground, { stroke: '#6B4E2E', 'stroke-width': 2 });
    path(line.water, { stroke: WATER, 'stroke-width': 1.6, 'stroke-dasharray': '6 3', class: 'water' });
    const free = [-1, -1];
    line.marks.forEach(m => {
      picture.appendChild(svg('line', { x1: X(m.s), x2: X(m.s), y1: top, y2: top + plot, stroke: '#555', 'stroke-dasharray': '2 3' }));
      if (m.bottom !== undefined && m.bottom > low && m.bottom < high) picture.appendChild(svg('line', { x1: X(m.s) - 6, x2: X(m.s) + 6, y1: Y(m.bottom), y2: Y(m.bottom), stroke: '#000', 'stroke-width': 2 }));
      const name = m.label.length > 22 ? m.label.slice(0, 21) + '…' : m.label, width = 6.2 * name.length;
      const x = Math.max(left + width / 2, Math.min(W - right - width / 2, X(m.s)));
      const row = free.findIndex(f => x - width / 2 > f);
      if (row >= 0) {
        picture.appendChild(svg('text', { x, y: top - 4 - 12 * row, 'text-anchor': 'middle' }, name));
        free[row] = x + width / 2 + 4;
      }
    });
    picture.appendChild(svg('text', { x: left, y: 13 }, 'vertical exaggeration ' + (py / px).toFixed(1) + '× · brown: ground · filled: pipe' + (line.water.length ? ' · dashed blue: water at the peak' : '')));
    const hair = picture.appendChild(svg('line', { x1: 0, x2: 0, y1: top, y2: top + plot, stroke: '#000', visibility: 'hidden' }));
    box.appendChild(picture);
    const readout = box.appendChild(el('p', 'Move along the profile or the line on the map to read it.', 'readout'));
    show = () => {
      if (cursor === null) return;
      hair.setAttribute('x1', X(cursor)); hair.setAttribute('x2', X(cursor)); hair.setAttribute('visibility', 'visible');
      const ground = between(line.ground, cursor), invert = between(along(line, 'invert'), cursor);
      readout.textContent = 'Station ' + number(cursor, 1) + ' ' + data.length + ': ground ' + number(ground, 2) + ', invert ' + number(invert, 2) + ', depth ' + number(ground - invert, 2)
        + (line.water.length ? ', water ' + number(between(line.water, cursor), 2) : '') + ' ' + data.length;
      spot.setLatLng([between(along(line, 'y'), cursor), between(along(line, 'x'), cursor)]).addTo(map);
    };
    const pointer = e => {
      const r = picture.getBoundingClientRect();
      move(((e.clientX - r.left) * W / r.width - left) / px);
    };
    picture.addEventListener('pointermove', pointer);
    picture.addEventListener('pointerdown', pointer);
    picture.addEventListener('keydown', e => {
      const step = { ArrowLeft: -1, ArrowRight: 1, Home: -Infinity, End: Infinity }[e.key];
      if (step === undefined) return;
      e.preventDefault();
      move((cursor === null ? 0 : cursor) + step * (e.shiftKey ? 5 : 1) * unit);
    });
    show();
    if (focused) picture.focus();
  }
  let show = () => {};
  function move(s) {
    cursor = Math.max(0, Math.min(line.stations[line.stations.length - 1].s, s));
    show();
  }
  function step(range, most) {
    const raw = range / most, power = Math.pow(10, Math.floor(Math.log10(raw)));
    return [1, 2, 5, 10].map(f => f * power).find(f => f >= raw);
  }
  function grid(picture, total, low, high, X, Y, x0, x1, y0, y1) {
    const dz = step((high - low) / unit, 6), ds = step(total / unit, Math.max(3, (x1 - x0) / 90));
    const places = Math.max(0, -Math.floor(Math.log10(dz) + 1e-9));
    for (let z = Math.ceil(low / unit / dz) * dz; z * unit < high; z += dz) {
      picture.appendChild(svg('line', { x1: x0, x2: x1, y1: Y(z * unit), y2: Y(z * unit), stroke: '#ddd' }));
      picture.appendChild(svg('text', { x: x0 - 4, y: Y(z * unit) + 4, 'text-anchor': 'end' }, z.toFixed(places)));
    }
    for (let s = 0; s * unit <= total + 1e-9; s += ds) {
      picture.appendChild(svg('line', { x1: X(s * unit), x2: X(s * unit), y1: y0, y2: y1, stroke: '#eee' }));
      picture.appendChild(svg('text', { x: X(s * unit), y: y1 + 14, 'text-anchor': 'middle' }, String(Math.round(s * 100) / 100)));
    }
    picture.appendChild(svg('text', { x: (x0 + x1) / 2, y: y1 + 29, 'text-anchor': 'middle' }, 'station (' + data.length + '), elevations in ' + data.length));
    picture.appendChild(svg('rect', { x: x0, y: y0, width: x1 - x0, height: y1 - y0, fill: 'none', stroke: '#888' }));
  }
  let width = 0;
  new ResizeObserver(() => {
    const now = byId('profile').clientWidth;
    if (now && now !== width) { width = now; draw(); }
  }).observe(byId('profile'));

  // ---- the cursor on the map
  const h = data.heights, bytes = atob(h.cm);
  function level(x, y) {
    const u = x / h.cell - 0.5, v = (h.north - y) / h.cell - 0.5;
    const c = Math.max(0, Math.min(h.cols - 2, Math.floor(u))), r = Math.max(0, Math.min(h.rows - 2, Math.floor(v)));
    if (u < -0.5 || v < -0.5 || u > h.cols - 0.5 || v > h.rows - 0.5) return NaN;
    const z = (cc, rr) => {
      const i = 2 * (rr * h.cols + cc);
      const n = bytes.charCodeAt(i) | bytes.charCodeAt(i + 1) << 8;
      return n === 0xFFFF ? NaN : h.base + n / 100;
    };
    const fu = Math.max(0, Math.min(1, u - c)), fv = Math.max(0, Math.min(1, v - r));
    return (z(c, r) * (1 - fu) + z(c + 1, r) * fu) * (1 - fv) + (z(c, r + 1) * (1 - fu) + z(c + 1, r + 1) * fu) * fv;
  }
  function say(p, what) {
    const z = level(p.lng, p.lat);
    byId('cursor').textContent = what + ': ' + ((p.lng + data.origin[0]) / data.metresPerUnit).toFixed(2) + ' E, '
      + ((p.lat + data.origin[1]) / data.metresPerUnit).toFixed(2) + ' N (' + data.crs + ')'
      + (isNaN(z) ? ', ground not known' : ', ground ' + number(z, 2) + ' ' + data.length);
  }
  map.on('mousemove', e => say(e.latlng, 'Cursor'));
  map.on('moveend', () => say(map.getCenter(), 'Middle of the map'));

  // ---- the column of words
  const minds = byId('minds');
  minds.appendChild(el('h2', 'Cautions'));
  minds.appendChild(list(data.cautions, 'caution'));
  if (data.warnings.length) {
    minds.appendChild(el('h2', 'Warnings'));
    minds.appendChild(list(data.warnings, 'warning'));
  }
  const side = byId('routes');
  side.appendChild(el('h2', data.routes.length ? 'Drains side by side' : 'Drain'));
  if (data.routes.length) {
    const wrap = side.appendChild(el('div', undefined, 'scroll'));
    const t = wrap.appendChild(el('table')), head = t.appendChild(el('thead')).appendChild(el('tr'));
    head.appendChild(el('th', ''));
    data.routes.forEach(r => {
      const b = head.appendChild(el('th')).appendChild(el('button', r.id));
      b.type = 'button';
      b.value = r.id;
      b.style.borderLeftColor = r.color;
      b.addEventListener('click', () => choose(r, 0));
    });
    const body = t.appendChild(el('tbody'));
    data.routes[0].facts.forEach((f, i) => {
      const tr = body.appendChild(el('tr'));
      tr.appendChild(el('th', f[0]));
      data.routes.forEach(r => tr.appendChild(el('td', r.facts[i][1])));
    });
  } else {
    side.appendChild(el('p', 'No drain can be proposed.'));
    side.appendChild(list(data.rejected.map(r => r.id + ', ' + r.kind + ': ' + r.why)));
  }
  ledger(null);
  const no = byId('rejected');
  if (!data.routes.length) {
    no.parentNode.remove(); // they stand where the routes would
  } else if (data.rejected.length) {
    no.appendChild(table(['', 'Kind', 'Outlet', 'Why', 'Would work with'],
      data.rejected.map(r => [r.id, r.kind, r.outlet || 'any', r.why, r.relax.join('; or ') || '–']), []));
  } else {
    no.appendChild(el('p', 'None was rejected.'));
  }
  byId('assumptions').appendChild(data.assumptions.length
    ? table(['About', 'Assumed', 'Source'], data.assumptions, []) : el('p', 'Nothing.'));
  byId('sources').appendChild(list(data.sources));

  const fit = () => map.fitBounds(bounds(data.view), { padding: [44, 36] });
  fit();
  if (data.routes.length) choose(data.routes[0], 0);
  let shut = [];
  window.addEventListener('beforeprint', () => {
    shut = [...document.querySelectorAll('details:not([open])')];
    shut.forEach(d => { d.open = true; });
    document.documentElement.classList.add('printing'); // so that the map has its printed size now
    map.invalidateSize({ animate: false });
    fit();
  });
  window.addEventListener('afterprint', () => {
    shut.forEach(d => { d.open = false; });
    document.documentElement.classList.remove('printing');
    map.invalidateSize({ animate: false });
    fit();
  });
  document.documentElement.dataset.ready = 'yes';
}());
