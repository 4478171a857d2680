// The mock's shop: invented people, instruments and limits, and what a make-up can say.
const both = (en, es) => ({ en, es: es ?? en });

export const people = [
  { id: 'L.H.', initials: 'L.H.', name: 'Lead hand', role: 'lead-hand', active: true },
  { id: 'J.M.', initials: 'J.M.', name: 'Technician, day', role: 'technician', active: true },
  { id: 'A.R.', initials: 'A.R.', name: 'Technician, late', role: 'technician', active: true },
  { id: 'O.F.', initials: 'O.F.', name: 'Office', role: 'office', active: true },
];
export const password = 'greenhouse lamp on bench three';
export const pin = '482913';

export function shopView(instruments) {
  return {
    name: 'Glasshouse Row Pump Shop',
    people,
    instruments,
    limits: [
      {
        id: 'own-1',
        check: 'shaft-runout',
        upper: '0.0015 in',
        rank: 'customer',
        for: 'greenhouse heating loop',
        source: 'purchase note, item 4',
      },
    ],
    adopted: [
      { limit: 'seal-limits/impeller-sweep', by: 'L.H.', time: '2026-01-05T09:00:00Z' },
      { limit: 'key-room/common-practice', by: 'L.H.', time: '2026-01-05T09:00:00Z' },
    ],
    adoptable: [
      {
        limit: 'lubricants/soapy-water',
        title: both('From wet bellows to working length', 'De fuelle mojado a longitud de trabajo'),
        text: both('at most 15 min', 'como máximo 15 min'),
        source: both('Pump shop practice (no published source; the seal’s own sheet goes before it)'),
      },
      {
        limit: 'shaft-ovality/common-practice',
        title: both('Shaft ovality', 'Ovalidad del eje'),
        text: both('at most 0.3 thou', 'como máximo 0,0076 mm'),
        source: both('Pump shop practice'),
      },
    ],
    sheets: [
      {
        pump: 'end-suction circulator 2 x 1.5 x 6',
        make_up: {
          dimensions: { seal_working_length: { nominal: '1.000 in', lower: '0.969 in', upper: '1.031 in' } },
        },
      },
    ],
    step_texts: [
      {
        step: 'deburr',
        what_to_do: both(
          'Stone every edge the sleeve passes. Wipe, then feel with a cotton thread.',
          'Pasar piedra por cada canto. Limpiar y sentir con un hilo de algodón.',
        ),
      },
    ],
    devices: [{ id: 'bench-3', name: 'Tablet, bench 3' }],
    log: [
      {
        seq: 3,
        at: '2026-11-20T08:10:00.000Z',
        actor: 'L.H.',
        type: 'limit-set',
        text: both(
          'Own limit set: shaft runout, at most 0.0015 in, greenhouse heating loop',
          'Límite propio: alabeo del eje, como máximo 0.0015 in',
        ),
      },
      {
        seq: 2,
        at: '2026-11-18T07:02:00.000Z',
        actor: 'L.H.',
        type: 'instrument-set',
        text: both(
          'Instrument wrench-1: calibration due 2026-12-31',
          'Instrumento wrench-1: calibración hasta 2026-12-31',
        ),
      },
      {
        seq: 1,
        at: '2026-01-05T09:00:00.000Z',
        actor: 'L.H.',
        type: 'person-added',
        text: both('J.M. added as technician', 'J.M. añadido como técnico'),
      },
    ],
  };
}

const dims = [
  ['shaft_diameter', 'shaft diameter', 'diámetro del eje', []],
  ['shaft_length', 'shaft length', 'longitud del eje', []],
  ['shaft_shoulder', 'shaft shoulder', 'hombro del eje', []],
  ['register_diameter', 'register diameter', 'diámetro del centrador', []],
  ['sleeve_bore', 'sleeve bore', 'interior de la camisa', ['sleeve']],
  ['sleeve_outside_diameter', 'sleeve outside diameter', 'exterior de la camisa', ['sleeve']],
  ['sleeve_length', 'sleeve length', 'longitud de la camisa', ['sleeve']],
  ['seal_size', 'seal size', 'medida del sello', []],
  ['seal_working_length', 'seal working length', 'longitud de trabajo del sello', []],
  ['seat_thickness', 'seat thickness', 'espesor del asiento', []],
  ['seat_depth', 'seat depth', 'profundidad del asiento', []],
  ['impeller_diameter', 'impeller diameter', 'diámetro del impulsor', []],
  ['impeller_eye_diameter', 'impeller eye diameter', 'diámetro del ojo', []],
  ['wear_ring_bore', 'wear ring bore', 'interior del anillo de desgaste', []],
  ['gasket_thickness', 'gasket thickness', 'espesor de la junta', []],
  ['casing_depth', 'casing depth', 'profundidad de la carcasa', []],
];

const word = (w, en, es) => ({ word: w, title: both(en, es) });
export const makeUpForm = {
  driver: {
    standards: [word('nema', 'NEMA'), word('iec', 'IEC')],
    frames: {
      nema: ['143JM', '145JM', '182JM', '184JM', '213JM', '215JM', '254JM'],
      iec: ['80', '90S', '90L', '100L', '112M', '132S'],
    },
    flanges: ['FF165', 'FF215', 'FF265'],
    rotations: [
      word('clockwise', 'clockwise', 'horario'),
      word('counter-clockwise', 'counter-clockwise', 'antihorario'),
    ],
  },
  seal: {
    kinds: [
      word('elastomer-bellows', 'elastomer bellows', 'fuelle de elastómero'),
      word('o-ring-pusher', 'O-ring pusher', 'empuje con junta tórica'),
      word('conical-spring', 'conical spring', 'muelle cónico'),
    ],
    elastomers: ['EPDM', 'FKM', 'NBR'],
    lubricants: [
      word('glycol-water', 'glycol and water', 'glicol y agua'),
      word('soapy-water', 'soapy water', 'agua jabonosa'),
    ],
    faces: [word('B', 'B · carbon, resin impregnated'), word('V', 'V · alumina, 99.5 %')],
  },
  service: {
    fluids: [
      word('water', 'water', 'agua'),
      word('water-glycol', 'water with glycol', 'agua con glicol'),
      word('sea-water', 'sea water', 'agua de mar'),
      word('wash-water', 'wash water', 'agua de lavado'),
    ],
    glycols: [
      word('ethylene', 'ethylene glycol', 'etilenglicol'),
      word('propylene', 'propylene glycol', 'propilenglicol'),
    ],
  },
  impeller: {
    backs: [
      word('plain', 'plain', 'lisa'),
      word('balance-holes', 'balance holes and ring', 'agujeros de equilibrio y anillo'),
    ],
  },
  hands: [word('right', 'right hand', 'a derechas'), word('left', 'left hand', 'a izquierdas')],
  fastener: {
    threads: ['3/8-16', '1/2-13', 'M10', 'M12'],
    grades: ['SAE 5', 'ISO 8.8', 'ISO A4-70'],
    conditions: ['dry', 'oiled'],
  },
  dimensions: dims.map(([name, en, es, asked_when]) => ({ name, title: both(en, es), asked_when })),
};
