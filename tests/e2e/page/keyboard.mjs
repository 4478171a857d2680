// A hand that has nothing but a keyboard: the focus is moved with Tab and Shift+Tab until the wanted element has it.

const longestWay = 400;

/** Where the wanted element lies as the focus goes: 'here', 'after' or 'before'. */
const whereIs = (element) => {
  const now = document.activeElement;
  if (now === element) return 'here';
  if (!now || now === document.body) return 'after';
  return now.compareDocumentPosition(element) & Node.DOCUMENT_POSITION_PRECEDING ? 'before' : 'after';
};

export class Keyboard {
  constructor(page) {
    this.page = page;
    this.tabs = 0;
  }

  /** Moves the focus to what `locator` finds; fails when the keyboard does not get there. */
  async reach(locator) {
    await locator.waitFor();
    let direction = null;
    for (let way = 0; way < longestWay; way++) {
      const where = await locator.evaluate(whereIs);
      if (where === 'here') return;
      // Once gone one way it goes on, so that a trap in the middle is found and not danced round.
      direction ??= where === 'before' ? 'Shift+Tab' : 'Tab';
      await this.page.keyboard.press(direction);
      this.tabs++;
    }
    throw new Error(`the keyboard does not reach ${locator}`);
  }

  async press(locator, key = 'Enter') {
    await this.reach(locator);
    await this.page.keyboard.press(key);
  }

  /** Writes over what stands in a field. */
  async write(locator, text) {
    await this.reach(locator);
    await this.page.keyboard.press('Control+A');
    await this.page.keyboard.type(text);
  }

  /** Chooses in a closed list by typing the beginning of the entry. */
  async select(locator, beginning) {
    await this.reach(locator);
    await this.page.keyboard.type(beginning);
    const chosen = await locator.evaluate((list) => list.selectedOptions[0].label);
    if (!chosen.startsWith(beginning)) throw new Error(`typing ${beginning} chose ${chosen}`);
  }

  /** Chooses one of a row: Tab goes to the row, the arrows go along it. */
  async choose(group, name) {
    const wanted = group.getByRole('radio', { name });
    await wanted.waitFor({ state: 'attached' });
    const checked = group.locator('input:checked');
    const none = (await checked.count()) === 0;
    await this.reach(none ? group.locator('input').first() : checked);
    if (none) await this.page.keyboard.press('Space');
    for (let along = 0; !(await wanted.isChecked()); along++) {
      if (along > 12) throw new Error(`the arrows do not reach ${wanted}`);
      await this.page.keyboard.press('ArrowRight');
    }
  }
}
