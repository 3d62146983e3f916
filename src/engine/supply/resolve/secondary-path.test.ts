import { expect, test } from 'vitest'
import { handoverLeakage_H, starWithTrack, track_H, trackAtPrimary_H } from './secondary-path.ts'

// An inductance goes to the other side of a transformer with the square of the ratio of turns: 20 nH of leads are 1.2 µH
// seen through 63 to 8 turns.
test('leads of the secondary count at the primary with the square of the ratio', () => {
  expect((trackAtPrimary_H(63 / 8) / track_H) * 20e-9).toBeCloseTo(1.24e-6, 8)
})

test('with few turns on a low output the way beyond the pins is as large as a good coil’s leakage', () => {
  const leakage = { minimum: 5e-6, typical: 6.4e-6, maximum: 9.6e-6 }
  const whole = handoverLeakage_H(leakage, 32)
  expect(whole.typical - leakage.typical).toBeCloseTo(whole.maximum - leakage.maximum, 12)
  expect(whole.typical / leakage.typical).toBeGreaterThan(3)
})

test('what is added is the secondary’s own: its part grows by all of it, and the others keep theirs', () => {
  const star = { secondaryShare: 0.4, biasShare: 0.1 }
  const [leakage_H, n] = [10e-6, 20]
  const whole_H = leakage_H + trackAtPrimary_H(n)
  const moved = starWithTrack(star, leakage_H, n)
  expect(moved.secondaryShare * whole_H).toBeCloseTo(4e-6 + trackAtPrimary_H(n), 15)
  expect(moved.biasShare * whole_H).toBeCloseTo(1e-6, 15)
  expect((1 - moved.secondaryShare) * whole_H).toBeCloseTo(6e-6, 15)
})
