/**
 * The parts of Playwright that the driver uses, so that its types can be checked without the editor tests' own install. The full
 * description comes with the package.
 */
declare module "playwright-core" {
  export interface Locator {
    first(): Locator;
    filter(options: { readonly hasText: string | RegExp }): Locator;
    locator(selector: string): Locator;
    count(): Promise<number>;
    click(): Promise<void>;
    waitFor(options?: { readonly state?: "visible" | "hidden" }): Promise<void>;
    allInnerTexts(): Promise<string[]>;
    evaluateAll<T>(inPage: (elements: HTMLElementLike[]) => T): Promise<T>;
  }

  /** What a function run inside the page may ask of an element. */
  export interface HTMLElementLike {
    readonly textContent: string | null;
    readonly className: string;
    readonly ownerDocument: {
      readonly defaultView: { getComputedStyle(element: unknown): { readonly color: string } };
    };
  }

  export interface Page {
    readonly keyboard: {
      press(key: string): Promise<void>;
      type(text: string, options?: { readonly delay?: number }): Promise<void>;
      insertText(text: string): Promise<void>;
    };
    close(): Promise<void>;
    goto(url: string): Promise<unknown>;
    setDefaultTimeout(milliseconds: number): void;
    locator(selector: string): Locator;
    screenshot(options: { readonly path: string }): Promise<unknown>;
    on(event: "request", listener: (request: { url(): string }) => void): void;
    waitForTimeout(milliseconds: number): Promise<void>;
  }

  export interface Browser {
    newPage(options: {
      readonly viewport: { readonly width: number; readonly height: number };
      readonly deviceScaleFactor?: number;
      readonly colorScheme?: "light" | "dark";
    }): Promise<Page>;
    close(): Promise<void>;
  }

  export const chromium: {
    launch(options: { readonly executablePath: string; readonly args: readonly string[] }): Promise<Browser>;
  };
}
