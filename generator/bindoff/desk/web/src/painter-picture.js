// A picture that lies beneath the cells of a grid. It is neither saved nor sent anywhere.
import { announce, element } from './dom.js'
import { action, amount } from './painter-tools.js'

export class PictureBeneath {
  constructor(painter) {
    this.painter = painter
  }

  parts() {
    const file = element('input', { type: 'file', accept: 'image/*', onchange: event => this.lay(event.target.files[0]) })
    this.file = file
    this.told = element('p', { class: 'hint' }, 'To paint after a picture: it lies beneath the cells while this page is open, and is neither saved nor sent.')
    this.numbers = element('div', { class: 'numbers', hidden: true })
    return [element('label', { class: 'amount' }, element('span', {}, 'Picture'), file), this.numbers, this.told]
  }

  async lay(file) {
    if (!file) return
    let image
    try {
      image = await createImageBitmap(file)
    } catch {
      announce('This file is no picture that can be shown.')
      this.told.textContent = 'This file is no picture that can be shown. Save it as PNG or JPEG.'
      return
    }
    const { width, height } = this.painter.grid
    const ratio = this.painter.data.cell[0] / this.painter.data.cell[1]
    const high = (width * ratio * image.height) / image.width // in rounds, as wide as the grid
    this.painter.mine.picture = { image, left: 0, top: Math.round((height - high) * 10) / 20, wide: width, high: Math.round(high * 10) / 10, strength: 0.6 }
    this.show()
    this.painter.draw()
    announce('The picture lies beneath the grid, as wide as it.')
  }

  // The numbers of the picture that lies beneath the grid that is open.
  show() {
    const { picture } = this.painter.mine
    this.numbers.hidden = !picture
    if (picture) {
      const set = name => value => { picture[name] = value; this.painter.draw() }
      const strength = element('input', { type: 'range', min: '0', max: '100', value: String(picture.strength * 100), oninput: event => set('strength')(event.target.value / 100) })
      this.numbers.replaceChildren(
        element('label', { class: 'amount' }, element('span', {}, 'How strongly it shows'), strength),
        amount('Stitches from the left', picture.left, '0.5', set('left')), amount('Rows from the top', picture.top, '0.5', set('top')),
        amount('Stitches wide', picture.wide, '0.5', set('wide')), amount('Rows high', picture.high, '0.5', set('high')),
        action('Take it away', () => { this.painter.mine.picture = null; this.file.value = ''; this.show(); this.painter.draw() }))
    }
  }
}
