/** A double of Electron's Menu: what the template says, strictly, and keys that the page left alone. */

export interface Template {
  readonly id?: string;
  readonly label?: string;
  readonly role?: string;
  readonly type?: string;
  readonly accelerator?: string;
  readonly registerAccelerator?: boolean;
  readonly enabled?: boolean;
  readonly visible?: boolean;
  readonly click?: (item?: unknown, window?: unknown, event?: unknown) => void;
  readonly submenu?: readonly Template[];
}

export interface Key {
  readonly ctrl: boolean;
  readonly meta: boolean;
  readonly alt: boolean;
  readonly shift: boolean;
  readonly key: string;
}

const MODIFIERS: Readonly<Record<string, "ctrl" | "meta" | "alt" | "shift">> = {
  Control: "ctrl",
  Ctrl: "ctrl",
  CommandOrControl: process.platform === "darwin" ? "meta" : "ctrl",
  CmdOrCtrl: process.platform === "darwin" ? "meta" : "ctrl",
  Command: "meta",
  Cmd: "meta",
  Super: "meta",
  Meta: "meta",
  Alt: "alt",
  Option: "alt",
  Shift: "shift",
};

const SPELT: Readonly<Record<string, string>> = { Plus: "+", Space: " " };

/** @throws Error for an accelerator that Electron would not understand */
function parse(accelerator: string): Key {
  const words = accelerator.split("+");
  const key = words.pop() ?? "";
  const held = words.map((word) => MODIFIERS[word]);
  if (key === "" || held.includes(undefined)) throw new Error(`double: "${accelerator}" is no accelerator`);
  const [ctrl, meta, alt, shift] = (["ctrl", "meta", "alt", "shift"] as const).map((each) => held.includes(each));
  return {
    ctrl: ctrl === true,
    meta: meta === true,
    alt: alt === true,
    shift: shift === true,
    key: (SPELT[key] ?? key).toUpperCase(),
  };
}

const sameKey = (one: Key, other: Key): boolean =>
  one.ctrl === other.ctrl &&
  one.meta === other.meta &&
  one.alt === other.alt &&
  one.shift === other.shift &&
  one.key === other.key.toUpperCase();

export class DoubleMenu {
  readonly items: readonly Template[];

  constructor(template: readonly Template[]) {
    this.items = template;
    const seen: { readonly key: Key; readonly label: string }[] = [];
    const ids = new Set<string>();
    for (const { id, accelerator, label = "" } of this.all()) {
      if (id !== undefined && ids.has(id)) throw new Error(`double: the menu has two entries "${id}"`);
      if (id !== undefined) ids.add(id);
      if (accelerator === undefined) continue;
      const key = parse(accelerator);
      const twice = seen.find((each) => sameKey(each.key, key));
      if (twice !== undefined) throw new Error(`double: ${accelerator} is used twice (${twice.label}, ${label})`);
      seen.push({ key, label });
    }
  }

  all(items: readonly Template[] = this.items): readonly Template[] {
    return items.flatMap((item) => [item, ...this.all(item.submenu ?? [])]);
  }

  getMenuItemById(id: string): Template | null {
    return this.all().find((item) => item.id === id) ?? null;
  }

  press(key: Key, window: unknown): void {
    const usable = this.all().filter(
      ({ enabled, visible, registerAccelerator }) =>
        enabled !== false && visible !== false && registerAccelerator !== false,
    );
    const item = usable.find(({ accelerator }) => accelerator !== undefined && sameKey(parse(accelerator), key));
    item?.click?.(item, window, {});
  }
}
