// Small drawings of how an indicator can sit: the shaft is the round part, the square is what stands.
import type { ComponentChildren } from 'preact';

function Picture({ children }: { children: ComponentChildren }) {
  return (
    <svg class="setup-picture" viewBox="0 0 96 64" aria-hidden="true">
      {children}
    </svg>
  );
}

const Dial = ({ x, y }: { x: number; y: number }) => (
  <>
    <circle class="p-dial" cx={x} cy={y} r="9" />
    <path class="p-line" d={`M${x} ${y}l4 -5`} />
  </>
);

export const MountShaft = () => (
  <Picture>
    <circle class="p-turns" cx="40" cy="40" r="16" />
    <path class="p-arrow" d="M24 28a20 20 0 0 1 30 -4l-6 0m6 0l0 -6" />
    <path class="p-stands" d="M78 8h12v52h-12z" />
    <path class="p-line" d="M78 18H60M56 40H50" />
    <Dial x={60} y={27} />
    <path class="p-line" d="M57 36L52 40" />
  </Picture>
);

export const MountHousing = () => (
  <Picture>
    <path class="p-stands" d="M6 6h84v52h-84zM16 14v36h64v-36z" fill-rule="evenodd" />
    <circle class="p-turns" cx="48" cy="32" r="9" />
    <path class="p-line" d="M56 28L64 24M73 22L80 20" />
    <Dial x={69} y={23} />
    <path class="p-arrow" d="M36 24a14 14 0 0 1 14 -7l-5 -3m5 3l-4 4" />
  </Picture>
);

export const PlungerPlus = () => (
  <Picture>
    <circle class="p-dial" cx="48" cy="26" r="18" />
    <path class="p-line" d="M48 44v14M42 58h12" />
    <path class="p-strong" d="M40 26h16M48 18v16" />
  </Picture>
);

export const PlungerMinus = () => (
  <Picture>
    <circle class="p-dial" cx="48" cy="26" r="18" />
    <path class="p-line" d="M48 44v14M42 58h12" />
    <path class="p-strong" d="M40 26h16" />
  </Picture>
);

export const Outside = () => (
  <Picture>
    <circle class="p-turns" cx="40" cy="34" r="20" />
    <path class="p-strong" d="M90 34H62M68 28L62 34L68 40" />
  </Picture>
);

export const Inside = () => (
  <Picture>
    <path
      class="p-stands"
      d="M10 4h64v56h-64zM22 32a20 20 0 1 0 40 0a20 20 0 1 0 -40 0z"
      fill-rule="evenodd"
    />
    <path class="p-strong" d="M40 32H60M54 26L60 32L54 38" />
  </Picture>
);

export const TowardDriver = () => (
  <Picture>
    <path class="p-stands" d="M4 8h24v48h-24z" />
    <path class="p-turns" d="M28 26h44v12h-44z" />
    <path class="p-strong" d="M92 32H76M82 26L76 32L82 38" />
  </Picture>
);

export const TowardImpeller = () => (
  <Picture>
    <path class="p-stands" d="M4 8h24v48h-24z" />
    <path class="p-turns" d="M28 26h44v12h-44z" />
    <path class="p-strong" d="M76 32H92M86 26L92 32L86 38" />
  </Picture>
);
