import { listed, plural } from '../../words/words.ts';
import { bothParts, plainNumber, shown } from '../figures.ts';
import { productName, productOf } from '../names.ts';
import { NotSo, type WhatIf } from '../what-if.ts';

/** Other shares of the products; those not named share the rest as they did. */
export const mix: WhatIf = {
  word: 'mix',
  group: 'parts',
  takes: 'PRODUCT=PERCENT[,PRODUCT=PERCENT]',
  says: 'so many in a hundred are of this product; the others share the rest as they do now',
  example: 'bent=60',
  such: ({ shift }) => (shift.products.length < 2 ? null : `${shift.products.at(-1)!.id}=60`),
  read(cell, given) {
    const { products } = cell.shift;
    if (products.length < 2) throw new NotSo('the file has one product only');
    const asked = new Map(
      given.split(',').map((one) => {
        const [name, value] = bothParts(one);
        return [productOf(cell, name).id, plainNumber(value, 0, 100)] as const;
      }),
    );
    const sum = [...asked.values()].reduce((all, one) => all + one, 0);
    const others = products.filter(({ id }) => !asked.has(id));
    const now = others.reduce((all, { share }) => all + share, 0);
    if (sum > 100 || (now === 0 && sum !== 100))
      throw new NotSo(`the shares come to ${shown(sum)}, ${sum > 100 ? 'more than' : 'less than'} 100`);
    const rest = (share: number): number => (now === 0 ? 0 : (share / now) * (100 - sum));
    return {
      changes: {
        products: Object.fromEntries(
          products.map(({ id, share }) => [id, { share: asked.get(id) ?? rest(share) }]),
        ),
      },
      label: listed(
        products
          .filter(({ id }) => asked.has(id))
          .map((product) => `${shown(asked.get(product.id)!)} in 100 ${plural(productName(cell, product))}`),
      ),
    };
  },
  offers: () => [],
};
