export type PictureSize =
  | { readonly state: 'known'; readonly width: number; readonly height: number }
  | { readonly state: 'unreadable' }
  /** `late`: it has been under way for so long that the drawing should not wait for it. */
  | { readonly state: 'loading'; readonly late: boolean };

const PATIENCE = 300;

/** How large each picture is, known only once the browser has read it. */
export class PictureSizes {
  readonly #sizes = new Map<string, PictureSize>();
  readonly #onNews: () => void;

  constructor(onNews: () => void) {
    this.#onNews = onNews;
  }

  of(href: string): PictureSize {
    const known = this.#sizes.get(href);
    if (known) return known;
    const loading: PictureSize = { state: 'loading', late: false };
    this.#sizes.set(href, loading);
    const image = new Image();
    image.addEventListener('load', () => {
      const { naturalWidth: width, naturalHeight: height } = image;
      this.#learn(href, width > 0 && height > 0 ? { state: 'known', width, height } : { state: 'unreadable' });
    });
    image.addEventListener('error', () => this.#learn(href, { state: 'unreadable' }));
    image.src = href;
    setTimeout(() => {
      if (this.#sizes.get(href) === loading) this.#learn(href, { state: 'loading', late: true });
    }, PATIENCE);
    return loading;
  }

  #learn(href: string, size: PictureSize): void {
    this.#sizes.set(href, size);
    this.#onNews();
  }
}
