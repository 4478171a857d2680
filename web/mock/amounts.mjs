// Amounts and a plain circle fit for the mock server: near enough to look at a page, never a verdict for a pump.

const THOU = 2.54e-5;

export function toSi(text, unit) {
  const m = /^\s*([+-]?[0-9]*[.,]?[0-9]+)\s*([^\d\s].*)?$/.exec(String(text).replace('−', '-'));
  if (!m) return null;
  const number = Number(m[1].replace(',', '.'));
  const factor = { thou: THOU, in: 0.0254, mm: 1e-3, µm: 1e-6, ft·lbf: 1.3558179, N·m: 1 }[
    (m[2] ?? unit).trim()
  ];
  return factor === undefined ? null : number * factor;
}

export function amount(si, kind) {
  if (si === null || si === undefined) return null;
  if (kind === 'torque')
    return { si, kind, inch: `${(si / 1.3558179).toFixed(1)} ft·lbf`, metric: `${si.toFixed(1)} N·m` };
  if (kind === 'time')
    return { si, kind, inch: `${Math.round(si / 60)} min`, metric: `${Math.round(si / 60)} min` };
  if (kind === 'ratio')
    return { si, kind, inch: `${(si * 100).toFixed(0)} %`, metric: `${(si * 100).toFixed(0)} %` };
  const a = Math.abs(si);
  const inch = a < 2.54e-4 * 2 ? `${(si / THOU).toFixed(2)} thou` : `${(si / 0.0254).toFixed(4)} in`;
  const metric = `${(si * 1e3).toFixed(a < 1e-3 ? 4 : 3)} mm`;
  return { si, kind, inch, metric };
}

/** Least squares of mean + a1 cos + b1 sin. Null below three places. */
export function fitCircle(points) {
  const n = points.length;
  if (n < 3) return null;
  const m = [0, 1, 2].map(() => [0, 0, 0, 0]);
  for (const p of points) {
    const t = (p.angle_deg * Math.PI) / 180;
    const row = [1, Math.cos(t), Math.sin(t)];
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) m[i][j] += row[i] * row[j];
      m[i][3] += row[i] * p.value_m;
    }
  }
  for (let i = 0; i < 3; i++) {
    if (Math.abs(m[i][i]) < 1e-9) return null;
    for (let k = 0; k < 3; k++) {
      if (k === i) continue;
      const f = m[k][i] / m[i][i];
      for (let j = i; j < 4; j++) m[k][j] -= f * m[i][j];
    }
  }
  return m.map((row, i) => row[3] / row[i]);
}

/** A sweep as the view carries it. */
export function sweepView(points) {
  const f = fitCircle(points);
  if (!f) return null;
  const [mean, a1, b1] = f;
  const e = Math.hypot(a1, b1);
  const values = points.map((p) => p.value_m);
  const tir = Math.max(...values) - Math.min(...values);
  const rest = points.map((p) => {
    const t = (p.angle_deg * Math.PI) / 180;
    return p.value_m - mean - a1 * Math.cos(t) - b1 * Math.sin(t);
  });
  const sigma = Math.sqrt(rest.reduce((s, r) => s + r * r, 0) / Math.max(1, points.length - 3));
  const places = new Set(points.map((p) => ((p.angle_deg % 360) + 360) % 360)).size;
  const suspects = rest
    .map((r, index) => ({ index, angle_deg: points[index].angle_deg, r: Math.abs(r) }))
    .filter((s) => points.length >= 8 && s.r > 2.4 * sigma && s.r > 2e-5)
    .sort((a, b) => b.r - a.r)
    .slice(0, 1)
    .map(({ index, angle_deg }) => ({ index, angle_deg }));
  return {
    points,
    mean_m: mean,
    a1_m: a1,
    b1_m: b1,
    eccentricity: amount(e, 'length'),
    eccentricity_u: amount(sigma * Math.sqrt(2 / points.length), 'length'),
    high_spot_deg:
      e > 2 * sigma * Math.sqrt(2 / points.length)
        ? ((Math.atan2(b1, a1) * 180) / Math.PI + 360) % 360
        : null,
    tir: amount(tir, 'length'),
    tir_fitted: amount(2 * e, 'length'),
    missed_tir: amount(2 * e * (1 - Math.cos(Math.PI / places)), 'length'),
    ront: amount(Math.max(...rest) - Math.min(...rest), 'length'),
    suspects,
    second_turn: points.some((p) => p.angle_deg > 360),
  };
}
