// A make-up as the server takes it: what was left empty is left out.
import type { MakeUp } from '../api/types';

export const emptyMakeUp: MakeUp = {
  driver: { standard: 'nema', frame: '' },
  sleeve: 'fitted',
  seal: { kind: '', elastomer: '', lubricant: '' },
  impeller: { keyways: 1 },
  service: { fluid: '' },
  speed: '',
  dimensions: {},
};

const filled = (text: string | undefined): text is string => text !== undefined && text.trim() !== '';

/** Without the texts that were left empty. */
function written<T extends object>(entries: T): T {
  const kept = Object.entries(entries).filter(([, value]) => typeof value !== 'string' || filled(value));
  return Object.fromEntries(kept) as T;
}

type Service = MakeUp['service'];
type Seal = MakeUp['seal'];

/** Of a mixture, what it is mixed of; of sea water, how salty. */
export const isMixture = (fluid: string): boolean => fluid === 'water-glycol';
export const hasConcentration = (fluid: string): boolean => isMixture(fluid) || fluid === 'sea-water';
export const drivesByCoil = (kind: string): boolean => kind === 'conical-spring';

function tidyService({ glycol, concentration, ...service }: Service): Service {
  return written({
    ...service,
    ...(isMixture(service.fluid) && glycol ? { glycol } : {}),
    ...(hasConcentration(service.fluid) && concentration ? { concentration } : {}),
  });
}

function tidySeal({ ring, seat, coil, sheet, ...seal }: Seal): Seal {
  const { ring_mass: mass, ...rest } = sheet ?? {};
  const kept = written({ ...rest, ...(rest.head === 'standing' && mass ? { ring_mass: mass } : {}) });
  const anySize = Object.keys(kept).some((name) => name !== 'liquid' && name !== 'head');
  return {
    ...seal,
    ...written({ ring: ring ?? '', seat: seat ?? '' }),
    ...(drivesByCoil(seal.kind) && filled(coil) ? { coil } : {}),
    ...(anySize ? { sheet: kept } : {}),
  };
}

function tidyDriver({ flange, rotation, ...driver }: MakeUp['driver']): MakeUp['driver'] {
  return {
    ...driver,
    ...(filled(flange) ? { flange } : {}),
    ...(filled(rotation) ? { rotation } : {}),
  };
}

function tidyFastener<F extends { hand?: string }>({
  hand,
  ...fastener
}: F): Omit<F, 'hand'> & { hand?: string } {
  return { ...fastener, ...(filled(hand) ? { hand } : {}) };
}

export function tidyMakeUp(m: MakeUp): MakeUp {
  const { fastener, ...impeller } = m.impeller;
  const torque = fastener?.torque;
  const hasTorque = filled(torque?.lower) && filled(torque?.upper);
  const { torque: _before, ...plainFastener } = fastener ?? { thread: '', grade: '', condition: '' };
  return {
    driver: tidyDriver(m.driver),
    sleeve: m.sleeve,
    seal: tidySeal(m.seal),
    impeller: {
      ...written(impeller),
      ...(fastener && filled(fastener.thread)
        ? { fastener: { ...tidyFastener(plainFastener), ...(hasTorque && torque ? { torque } : {}) } }
        : {}),
    },
    service: tidyService(m.service),
    speed: m.speed,
    dimensions: m.dimensions ?? {},
    ...(Object.keys(m.sheets ?? {}).length > 0 && m.sheets ? { sheets: m.sheets } : {}),
  };
}

/** What must be chosen before a plan can be asked for. */
export const isPlannable = (m: MakeUp): boolean =>
  m.driver.frame !== '' &&
  m.seal.kind !== '' &&
  m.seal.elastomer !== '' &&
  m.seal.lubricant !== '' &&
  m.service.fluid !== '' &&
  m.speed.trim() !== '';
