// Floats that are too long, marked while one paints.
import { announce, count } from './dom.js'
import { lineOf } from './painter-grid.js'
import { ask, client } from './server.js'

export class Floats {
  constructor(painter) {
    this.painter = painter
  }

  // Which floats are too long is asked of the server, which reckons them as the check does.
  count(wait = 90) {
    clearTimeout(this.timer)
    const { file, data } = this.painter
    if (!data.limit || !this.painter.look.floats) {
      this.painter.board.long = new Map()
      this.painter.floats = 0
      return
    }
    this.timer = setTimeout(async () => {
      const { rows } = this.painter.grid
      const told = await ask('floats', { client, file, rows: rows.map(row => lineOf(row, this.painter.grid)) }).catch(() => ({}))
      if (file !== this.painter.file || rows !== this.painter.grid.rows || !told.floats) return
      const long = new Map()
      const { width, height } = this.painter.grid
      for (const { line, yarn, length, stitches } of told.floats) {
        for (const stitch of stitches) long.set((height - line) * width + width - stitch, `behind it ${yarn} floats over ${length}`)
      }
      this.painter.board.long = long
      if (this.painter.floats !== undefined && this.painter.floats !== told.floats.length) {
        clearTimeout(this.saying)
        this.saying = setTimeout(() => announce(told.floats.length ? `${count(told.floats.length, 'long float')}.` : 'No long float.'), 900)
      }
      this.painter.floats = told.floats.length
      this.painter.board.draw()
      this.painter.board.voice()
      this.painter.tellWhere()
    }, wait)
  }
}
