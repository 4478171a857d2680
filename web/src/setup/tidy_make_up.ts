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

export function tidyMakeUp(m: MakeUp): MakeUp {
  const { flange, ...driver } = m.driver;
  const { temperature, suction_pressure, ...service } = m.service;
  const { fastener, ...impeller } = m.impeller;
  const torque = fastener?.torque;
  const hasTorque = filled(torque?.lower) && filled(torque?.upper);
  const { torque: _before, ...plainFastener } = fastener ?? { thread: '', grade: '', condition: '' };
  return {
    driver: { ...driver, ...(filled(flange) ? { flange } : {}) },
    sleeve: m.sleeve,
    seal: m.seal,
    impeller: {
      ...impeller,
      ...(fastener && filled(fastener.thread)
        ? { fastener: { ...plainFastener, ...(hasTorque && torque ? { torque } : {}) } }
        : {}),
    },
    service: {
      ...service,
      ...(filled(temperature) ? { temperature } : {}),
      ...(filled(suction_pressure) ? { suction_pressure } : {}),
    },
    speed: m.speed,
    dimensions: m.dimensions ?? {},
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
