/** A mouth scaled in size: its form times k, for bands and fits. */
import type { FormSpec } from './specs';

/** The same form k times as large: lengths × k, the sextic's a × k⁻⁵ and b × k⁻¹. */
export function scaledForm(form: FormSpec, k: number): FormSpec {
  switch (form.kind) {
    case 'power':
      return { ...form, widthMm: form.widthMm * k, depthMm: form.depthMm * k };
    case 'catenary':
      return { ...form, widthMm: form.widthMm * k, depthMm: form.depthMm * k };
    case 'sextic':
      return { ...form, a: form.a / k ** 5, b: form.b / k };
    case 'circle':
      return { ...form, radiusMm: form.radiusMm * k };
    case 'line':
      return form;
    case 'points':
      return { ...form, points: form.points.map(([x, z]) => [x * k, z * k] as const) };
  }
}
