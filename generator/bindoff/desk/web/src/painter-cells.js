// How a cell looks: its colour, its character or the symbol of its stitch, and an ink that shows.

const cache = new Map()

// Relative luminance (WCAG 2.2) of #rrggbb.
function luminance(colour) {
  const [red, green, blue] = [1, 3, 5].map(at => {
    const part = parseInt(colour.slice(at, at + 2), 16) / 255
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4
  })
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue
}

export function inkOn(colour) {
  if (!cache.has(colour)) {
    const light = luminance(colour)
    cache.set(colour, (light + 0.05) / 0.05 >= 1.05 / (light + 0.05) ? '#000000' : '#ffffff')
  }
  return cache.get(colour)
}

// A legend by its signs; each entry with its paths ready to draw.
export function legendOf(entries) {
  const found = new Map()
  for (const entry of entries) {
    const strokes = pathOf(entry.strokes)
    const fills = pathOf(entry.fills)
    found.set(entry.sign, { ...entry, strokes, fills, drawn: Boolean(strokes || fills || entry.shade) })
  }
  return found
}

function pathOf(commands) {
  if (!commands?.length) return null
  const path = new Path2D()
  for (const [kind, ...at] of commands) {
    if (kind === 'M') path.moveTo(...at)
    else if (kind === 'L') path.lineTo(...at)
    else if (kind === 'C') path.bezierCurveTo(...at)
    else path.closePath()
  }
  return path
}

// What a sign means to whoever hears it: its words and the character itself.
export function said(legend, sign) {
  const entry = legend.get(sign)
  return entry?.name ? `${entry.name} (${sign})` : `character ${sign}, which no legend explains`
}

export const groundOf = (entry, paper) => entry?.colour ?? entry?.shade ?? paper

// The mark of a cell: `part` and `wide` for the piece of a symbol that covers several cells.
export function drawMark(context, entry, sign, { x, y, w, h }, ink, symbols, part = 0) {
  const side = Math.min(w, h)
  if (symbols && entry?.drawn && (entry.strokes || entry.fills)) {
    const { wide } = entry
    const across = wide > 1 ? w : side
    context.save()
    context.beginPath()
    context.rect(x, y, w, h)
    context.clip()
    context.translate(x - part * w + (wide * (w - across)) / 2, y + (h - side) / 2)
    context.scale(across, side)
    context.fillStyle = context.strokeStyle = ink
    context.lineWidth = Math.max(0.085, 1.2 / side)
    if (entry.fills) context.fill(entry.fills)
    if (entry.strokes) context.stroke(entry.strokes)
    context.restore()
    return
  }
  if (symbols && entry?.shade) return
  context.fillStyle = ink
  context.fillText(sign, x + w / 2, y + h / 2 + side * 0.04)
}

export function markFont(side) {
  return `${Math.round(Math.max(8, side * 0.62))}px ui-monospace, "DejaVu Sans Mono", "Liberation Mono", monospace`
}
