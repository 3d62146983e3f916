/** Least insulation resistance between the sides at 500 V dc. Common practice, no source. */
export const leastInsulation_ohm = 100e6
/** What a dry, clean winding of this size usually exceeds at 500 V dc; less tells of damp or dirt. Common practice, no source. */
export const dryInsulation_ohm = 1e9
/** Usual dc voltage of an insulation tester for mains equipment. Common practice, no source. */
export const insulationTest_V = 500
