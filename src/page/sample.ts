/** The files of the samples, beside the page: a boat with polars, and one whose speeds are estimated. */
export const SAMPLES = {
  sample: ['route.csv', 'forecast.csv', 'boat.json', 'polars.csv'],
  'sample-plain': ['route.csv', 'forecast.csv', 'no-downwind.json'],
} as const;

/** When the sample's passage begins. */
export const SAMPLE_DEPARTURE = '2027-01-11T12:00';

/** The files of a sample, fetched from beside the page. */
export function fetchedSample(names: readonly string[]): Promise<readonly File[]> {
  return Promise.all(
    names.map(async (name) => {
      const response = await fetch(`sample/${name}`);
      if (!response.ok) throw new Error(`sample/${name}: ${response.status}`);
      return new File([await response.blob()], name, { lastModified: 0 });
    }),
  );
}
