import type { SvgNode } from '../../svg/node.ts'
import { wire } from '../../svg/path.ts'
import { column, rail } from '../layout.ts'
import type { SchematicModel, Spot } from '../model.ts'
import { run } from './leads.ts'

/** Optocoupler, shunt reference, divider and compensation, Y capacitor. */
export function feedbackWiring(model: SchematicModel): SvgNode[] {
  const has = (spot: Spot) => model.items[spot] !== undefined
  const after = has('choke')
  const ledTap = after && model.ledFeedAfterChoke ? column.ledTap : 1100
  const senseTap = after && model.senseAfterChoke ? column.senseTap : 1111
  const x = column.ledFeed
  const cathode = 625
  const sense = 560
  const nodes = [
    ...run(
      [
        [ledTap, rail.outputTop],
        [ledTap, 295],
        [x, 295],
        [x, 410],
      ],
      [[ledTap, rail.outputTop]],
    ),
    ...run(
      [
        [senseTap, rail.outputTop],
        [senseTap, 335],
        [column.divider, 335],
        [column.divider, 390],
      ],
      [[senseTap, rail.outputTop]],
    ),
    ...run([
      [x, 470],
      [x, 535],
    ]),
    ...run([
      [x, 595],
      [x, cathode],
      [1168, cathode],
    ]),
    ...run([
      [column.divider, 450],
      [column.divider, has('trimmer') ? 570 : 630],
    ]),
    ...run(
      [
        [column.divider, sense],
        [1267, sense],
        [1267, 655],
        [1184, 655],
      ],
      [
        [column.divider, sense],
        [1267, sense],
      ],
    ),
    ...run(
      [
        [1168, 685],
        [1168, rail.feedbackCommon],
      ],
      [[1168, rail.feedbackCommon]],
    ),
    ...run(
      [
        [column.divider, rail.feedbackCommon],
        [1168, rail.feedbackCommon],
      ],
      [[column.divider, rail.feedbackCommon]],
    ),
    ...run(
      [
        [column.divider, rail.feedbackCommon],
        [column.commonReturn, rail.feedbackCommon],
        [column.commonReturn, rail.outputCommon],
      ],
      [[column.commonReturn, rail.outputCommon]],
    ),
    ...run(
      [
        [1120, cathode],
        [1120, 540],
      ],
      [[1120, cathode]],
    ),
    wire([1180, 540], [1201, 540]),
    ...run([
      [1261, 540],
      [1267, 540],
      [1267, sense],
    ]),
  ]
  if (has('highFrequencyCapacitor'))
    nodes.push(
      ...run(
        [
          [1120, 540],
          [1120, 480],
          [1160, 480],
        ],
        [[1120, 540]],
      ),
      ...run(
        [
          [1220, 480],
          [1267, 480],
          [1267, 540],
        ],
        [[1267, 540]],
      ),
    )
  if (has('biasResistor'))
    nodes.push(
      ...run(
        [
          [x, 510],
          [1045, 510],
          [1045, 535],
        ],
        [[x, 510]],
      ),
      ...run(
        [
          [1045, 595],
          [1045, cathode],
        ],
        [[1045, cathode]],
      ),
    )
  if (has('softFinishCapacitor'))
    nodes.push(
      ...run(
        [
          [1020, cathode],
          [1020, 627],
        ],
        [[1020, cathode]],
      ),
      ...run([
        [1020, 687],
        [1020, rail.feedbackCommon],
        [1168, rail.feedbackCommon],
      ]),
    )
  if (has('yCapacitor'))
    nodes.push(
      ...run(
        [
          [895, 725],
          [720, 725],
          [720, rail.primaryCommon],
        ],
        [[720, rail.primaryCommon]],
      ),
      ...run(
        [
          [955, 725],
          [1168, 725],
          [1168, rail.feedbackCommon],
        ],
        [[1168, rail.feedbackCommon]],
      ),
    )
  return nodes
}
