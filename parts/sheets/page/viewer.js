"use strict";
// A small viewer: WebGL where there is one, else painted back to front on a plain canvas. No perspective, as in a drawing.
(() => {
  const holder = document.getElementById("models"), canvas = document.getElementById("view");
  if (!holder || !canvas) return;
  canvas.parentElement.hidden = false;
  const data = JSON.parse(holder.textContent);

  const bytes = (text) => Uint8Array.from(atob(text), (c) => c.charCodeAt(0)).buffer;
  const unpack = (m) => {
    const raw = new Int16Array(bytes(m.points)), Index = m.wide ? Uint32Array : Uint16Array;
    const triangles = new Index(bytes(m.triangles)), edges = new Index(bytes(m.edges));
    const points = Float32Array.from(raw, (v, i) => m.middle[i % 3] + v * m.step), normals = new Float32Array(points.length);
    for (let t = 0; t < triangles.length; t += 3) {
      const [a, b, c] = [triangles[t] * 3, triangles[t + 1] * 3, triangles[t + 2] * 3];
      const u = [0, 1, 2].map((k) => points[b + k] - points[a + k]), v = [0, 1, 2].map((k) => points[c + k] - points[a + k]);
      const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
      for (const p of [a, b, c]) for (let k = 0; k < 3; k++) normals[p + k] += n[k];
    }
    for (let p = 0; p < normals.length; p += 3) {
      const long = Math.hypot(normals[p], normals[p + 1], normals[p + 2]) || 1;
      for (let k = 0; k < 3; k++) normals[p + k] /= long;
    }
    return { points, normals, triangles, edges, color: m.color, wide: m.wide };
  };
  const meshes = data.meshes.map(unpack);

  // what is shown, from where
  const home = { yaw: 0.49, pitch: 0.45, zoom: 1 };
  let eye = { ...home }, view = data.views[0], apart = 1, box = null;
  const spread = (body) => [body.at[0], body.at[1], body.at[2] + apart * body.lift];
  const measure = () => {
    const low = [1e9, 1e9, 1e9], high = [-1e9, -1e9, -1e9];
    for (const body of view.bodies) {
      const at = spread(body), p = meshes[body.mesh].points;
      for (let i = 0; i < p.length; i++) {
        const k = i % 3, v = p[i] + at[k];
        if (v < low[k]) low[k] = v;
        if (v > high[k]) high[k] = v;
      }
    }
    box = { middle: low.map((v, k) => (v + high[k]) / 2), size: low.map((v, k) => high[k] - v) };
    box.reach = Math.hypot(...box.size) / 2 || 1;
  };
  const axes = () => {
    const [a, b, c, d] = [Math.cos(eye.yaw), Math.sin(eye.yaw), Math.cos(eye.pitch), Math.sin(eye.pitch)];
    return [[a, b, 0], [-b * d, a * d, c], [b * c, -a * c, d]];
  };
  const fit = () => {
    const [w, h] = [canvas.width, canvas.height];
    const flat = Math.hypot(box.size[0], box.size[1]) / 2, s = Math.abs(Math.sin(eye.pitch)), c = Math.abs(Math.cos(eye.pitch));
    const tall = flat * s + (box.size[2] / 2) * c;
    return 0.92 * eye.zoom * Math.min(w / 2 / Math.max(flat, 1e-6), h / 2 / Math.max(tall, 1e-6));
  };
  const resize = () => {
    const k = Math.min(devicePixelRatio || 1, 2);
    const w = Math.max(1, Math.round(canvas.clientWidth * k)), h = Math.max(1, Math.round(canvas.clientHeight * k));
    if (canvas.width !== w || canvas.height !== h) { canvas.width = w; canvas.height = h; }
  };
  const ground = () => {
    const found = getComputedStyle(document.documentElement).getPropertyValue("--panel").trim();
    const n = parseInt(found.slice(1), 16) || 0xf2f0e9;
    return [(n >> 16) / 255, ((n >> 8) & 255) / 255, (n & 255) / 255];
  };
  const KEY = [-0.42, 0.66, 0.62].map((v) => v / Math.hypot(0.42, 0.66, 0.62));
  const FILL = [0.8, 0.1, 0.59].map((v) => v / Math.hypot(0.8, 0.1, 0.59));

  const withGL = (gl) => {
    const make = (kind, text) => { const s = gl.createShader(kind); gl.shaderSource(s, text); gl.compileShader(s); return s; };
    const program = gl.createProgram();
    gl.attachShader(program, make(gl.VERTEX_SHADER, `
      attribute vec3 point, normal; uniform mat3 turn; uniform vec3 move; uniform vec3 scale; uniform mediump float line; varying vec3 n;
      void main() { vec3 p = turn * (point + move); n = turn * normal; gl_Position = vec4(p * scale - vec3(0.0, 0.0, 0.003 * line), 1.0); }`));
    gl.attachShader(program, make(gl.FRAGMENT_SHADER, `
      precision mediump float; uniform vec3 color, key, fill; uniform mediump float line; varying vec3 n;
      void main() {
        vec3 m = normalize(n); float k = max(dot(m, key), 0.0);
        float shine = pow(max(dot(m, normalize(key + vec3(0.0, 0.0, 1.0))), 0.0), 32.0);
        float light = 0.36 + 0.56 * k + 0.20 * max(dot(m, fill), 0.0) + 0.06 * max(m.z, 0.0);
        gl_FragColor = vec4(line > 0.5 ? vec3(0.15, 0.16, 0.17) : color * light + 0.25 * shine, 1.0); }`));
    gl.linkProgram(program);
    if (!gl.getProgramParameter(program, gl.LINK_STATUS)) return null;
    gl.useProgram(program);
    gl.getExtension("OES_element_index_uint");
    const at = (n) => gl.getUniformLocation(program, n), point = gl.getAttribLocation(program, "point"), normal = gl.getAttribLocation(program, "normal");
    const load = (kind, what) => { const b = gl.createBuffer(); gl.bindBuffer(kind, b); gl.bufferData(kind, what, gl.STATIC_DRAW); return b; };
    for (const m of meshes) m.gl = {
      points: load(gl.ARRAY_BUFFER, m.points), normals: load(gl.ARRAY_BUFFER, m.normals),
      triangles: load(gl.ELEMENT_ARRAY_BUFFER, m.triangles), edges: load(gl.ELEMENT_ARRAY_BUFFER, m.edges),
    };
    gl.enable(gl.DEPTH_TEST);
    gl.enableVertexAttribArray(point); gl.enableVertexAttribArray(normal);
    return () => {
      const [r, u, e] = axes(), s = fit();
      gl.viewport(0, 0, canvas.width, canvas.height);
      gl.clearColor(...ground(), 1); gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
      gl.uniformMatrix3fv(at("turn"), false, [r[0], u[0], e[0], r[1], u[1], e[1], r[2], u[2], e[2]]);
      gl.uniform3f(at("scale"), (2 * s) / canvas.width, (2 * s) / canvas.height, -0.9 / box.reach);
      gl.uniform3fv(at("key"), KEY); gl.uniform3fv(at("fill"), FILL);
      for (const body of view.bodies) {
        const m = meshes[body.mesh], p = spread(body), kind = m.wide ? gl.UNSIGNED_INT : gl.UNSIGNED_SHORT;
        gl.uniform3f(at("move"), p[0] - box.middle[0], p[1] - box.middle[1], p[2] - box.middle[2]);
        gl.uniform3fv(at("color"), m.color);
        gl.bindBuffer(gl.ARRAY_BUFFER, m.gl.points); gl.vertexAttribPointer(point, 3, gl.FLOAT, false, 0, 0);
        gl.bindBuffer(gl.ARRAY_BUFFER, m.gl.normals); gl.vertexAttribPointer(normal, 3, gl.FLOAT, false, 0, 0);
        gl.uniform1f(at("line"), 0); gl.bindBuffer(gl.ELEMENT_ARRAY_BUFFER, m.gl.triangles); gl.drawElements(gl.TRIANGLES, m.triangles.length, kind, 0);
        gl.uniform1f(at("line"), 1); gl.bindBuffer(gl.ELEMENT_ARRAY_BUFFER, m.gl.edges); gl.drawElements(gl.LINES, m.edges.length, kind, 0);
      }
    };
  };

  const painted = (pen) => () => {
    const [r, u, e] = axes(), s = fit(), [w, h] = [canvas.width, canvas.height], dot = (a, x, y, z) => a[0] * x + a[1] * y + a[2] * z;
    const faces = [];
    for (const body of view.bodies) {
      const m = meshes[body.mesh], p = spread(body).map((v, k) => v - box.middle[k]);
      for (let t = 0; t < m.triangles.length; t += 3) {
        const q = []; let deep = 0, n = [0, 0, 0];
        for (let k = 0; k < 3; k++) {
          const i = m.triangles[t + k] * 3, x = m.points[i] + p[0], y = m.points[i + 1] + p[1], z = m.points[i + 2] + p[2];
          q.push(w / 2 + s * dot(r, x, y, z), h / 2 - s * dot(u, x, y, z)); deep += dot(e, x, y, z);
          n = n.map((v, a) => v + m.normals[i + a]);
        }
        if ((q[2] - q[0]) * (q[5] - q[1]) - (q[4] - q[0]) * (q[3] - q[1]) >= 0) continue;
        const long = Math.hypot(...n) || 1, seen = [dot(r, ...n) / long, dot(u, ...n) / long, dot(e, ...n) / long];
        const light = 0.36 + 0.56 * Math.max(0, dot(KEY, ...seen)) + 0.2 * Math.max(0, dot(FILL, ...seen));
        faces.push([deep, q, `rgb(${m.color.map((v) => Math.min(255, Math.round(255 * v * light))).join(",")})`]);
      }
    }
    pen.fillStyle = `rgb(${ground().map((v) => Math.round(255 * v)).join(",")})`; pen.fillRect(0, 0, w, h);
    faces.sort((a, b) => a[0] - b[0]);
    for (const [, q, color] of faces) {
      pen.fillStyle = pen.strokeStyle = color; pen.beginPath(); pen.moveTo(q[0], q[1]); pen.lineTo(q[2], q[3]); pen.lineTo(q[4], q[5]); pen.closePath(); pen.fill(); pen.stroke();
    }
  };

  const gl = canvas.getContext("webgl", { antialias: true, preserveDrawingBuffer: true });
  const draw = gl ? withGL(gl) : painted(canvas.getContext("2d"));
  if (!draw) return;
  let asked = false;
  const show = () => {
    if (asked) return;
    asked = true;
    requestAnimationFrame(() => { asked = false; resize(); draw(); });
  };

  const slider = document.getElementById("explode"), row = document.getElementById("explode-row");
  const buttons = [...document.querySelectorAll("[data-view]")];
  const choose = (id) => {
    view = data.views.find((v) => v.id === id) || view;
    eye = { ...home };
    row.hidden = !view.bodies.some((b) => b.lift);
    for (const b of buttons) b.setAttribute("aria-pressed", String(b.dataset.view === view.id));
    canvas.setAttribute("aria-label", `The ${view.title}, in three dimensions`);
    measure(); show();
  };
  for (const b of buttons) b.addEventListener("click", () => choose(b.dataset.view));
  slider.addEventListener("input", () => { apart = slider.value / 100; measure(); show(); });

  const turn = (x, y) => { eye.yaw -= x; eye.pitch = Math.max(-1.57, Math.min(1.57, eye.pitch + y)); show(); };
  const zoom = (by) => { eye.zoom = Math.max(0.3, Math.min(12, eye.zoom * by)); show(); };
  const fingers = new Map();
  canvas.addEventListener("pointerdown", (ev) => { canvas.setPointerCapture(ev.pointerId); fingers.set(ev.pointerId, [ev.clientX, ev.clientY]); canvas.focus({ preventScroll: true }); });
  for (const end of ["pointerup", "pointercancel"]) canvas.addEventListener(end, (ev) => fingers.delete(ev.pointerId));
  canvas.addEventListener("pointermove", (ev) => {
    const was = fingers.get(ev.pointerId);
    if (!was) return;
    const other = [...fingers].find(([id]) => id !== ev.pointerId);
    if (other) zoom(Math.hypot(ev.clientX - other[1][0], ev.clientY - other[1][1]) / (Math.hypot(was[0] - other[1][0], was[1] - other[1][1]) || 1));
    else turn((ev.clientX - was[0]) * 0.009, (ev.clientY - was[1]) * 0.009);
    fingers.set(ev.pointerId, [ev.clientX, ev.clientY]);
  });
  canvas.addEventListener("wheel", (ev) => { if (document.activeElement === canvas) { ev.preventDefault(); zoom(Math.exp(-ev.deltaY * 0.001)); } }, { passive: false });
  const keys = {
    ArrowLeft: () => turn(-0.12, 0), ArrowRight: () => turn(0.12, 0), ArrowUp: () => turn(0, -0.12), ArrowDown: () => turn(0, 0.12),
    "+": () => zoom(1.2), "=": () => zoom(1.2), "-": () => zoom(1 / 1.2), 0: () => { eye = { ...home }; show(); },
  };
  canvas.addEventListener("keydown", (ev) => { if (keys[ev.key] && !ev.ctrlKey && !ev.metaKey) { ev.preventDefault(); keys[ev.key](); } });
  new ResizeObserver(show).observe(canvas);
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", show);
  choose(view.id);
})();
