// Whether a tag can be read with the camera here, and if not, why.

export interface Detector {
  detect(source: HTMLVideoElement): Promise<{ rawValue: string }[]>;
}

interface WithDetector {
  BarcodeDetector?: new (options: { formats: string[] }) => Detector;
}

export type CameraState = 'offered' | 'insecure' | 'absent';

export function cameraState(): CameraState {
  if (!window.isSecureContext) return 'insecure';
  return (window as WithDetector).BarcodeDetector && navigator.mediaDevices ? 'offered' : 'absent';
}

export function makeDetector(): Detector | null {
  const Made = (window as WithDetector).BarcodeDetector;
  return Made ? new Made({ formats: ['qr_code'] }) : null;
}
