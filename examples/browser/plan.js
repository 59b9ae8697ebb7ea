import { planPassage, readBoat, readForecast, readPolars, readRoute, totalsOf } from 'windwardrobe';

/** Plans from the texts of four files, by their names, and tells what it comes to: nothing of Node, nothing of the page. */
export async function planned(texts, departure) {
  const route = readRoute(texts['route.csv']);
  const boat = readBoat(texts['boat.json']);
  const polars = readPolars(texts['polars.csv'], { boat });
  const { forecast } = await readForecast({ name: 'forecast.csv', open: () => [texts['forecast.csv']] });
  const passage = planPassage({ route, forecast, boat, polars }, { departure });
  const { arrival, distanceNm, sailChanges, sails } = totalsOf(passage, boat);
  const [{ sailPlan, awaDeg, awsKn }] = passage.hours;
  return [
    `${distanceNm.toFixed(0)} Nm, there at ${arrival}, ${sailChanges} sail changes`,
    `${sailPlan} first, wind ${awsKn.toFixed(1)} kn at ${awaDeg.toFixed(0)} off the bow`,
    ...sails.filter(({ hours }) => hours > 0).map(({ id, hours }) => `${id} ${hours.toFixed(1)} h`),
  ].join('\n');
}
