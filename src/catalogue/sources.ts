/**
 * Published sources of the catalogue, by the id its numbers name. Most were readable only in part or at second hand.
 * @example
 * SOURCES.S9 // 'Practical Sailor, multihull numbers, Feb 2021'
 */
export const SOURCES = {
  S1: 'ORC VPP Documentation 2023, tables and equations of its chapters 5 and 7; a cell-by-cell transcription',
  S3: 'Hazen 1980 as printed in Larsson & Eliasson, Principles of Yacht Design; two independent transcriptions',
  S4: 'The IMS sail force table of 1986 (Poor); one transcription',
  S5: 'Notes comparing the ORC editions of 2023 and 2026 and reviewing downwind-sail papers (Souppez & Viola, Exp. Fluids 65:15, 2024, and others)',
  S6: 'A naval-architecture article summarising the ORC/IMS rule for headsails set flying',
  S9: 'Practical Sailor, multihull numbers, Feb 2021',
  S11: 'Cruising World, Jun/Jul 2018, reefing a catamaran; Cruising World, controlling sails on a catamaran',
  S13: "An owner's log on reefing early",
  S18: 'Yachting Monthly, twin headsails downwind (41-ft, 8 t catamaran)',
  S21: 'Cruising World, choosing downwind sails',
  S22: 'SAIL magazine, downwind sails for cruising',
  S23: "A sailmaker's public guide to choosing a spinnaker",
  S24: 'Yachting World, how to choose the right asymmetric spinnaker',
  S26: 'A couple on a 50-ft catamaran, article on choosing cruising sails',
  S27: 'Yachting World, Feb 2020, downwind sail choice',
  S29: 'A book on downwind sailing (the 75 % half-width rule)',
  S30: "A sailing club's discussion (the 70-180 deg claim, and a sceptic)",
  S32: 'Cruising World, what sails will you take; off-wind sails for cruising; a sailmaker guide to headsails',
  S33: 'World Sailing Offshore Special Regulations 4.26/4.27 as quoted in public pages; IRC heavy-weather jib page',
  S35: 'Cruising World, how long do sails last',
  S36: 'All At Sea, sail cloth and durability; Sail-World, how long will my sails last',
  S37: 'Ocean Navigator, new sails for voyaging',
  S40: 'Poynter, The Parachute Manual, 9.3.1.8.15, as quoted',
  S41: 'Web Sling & Tie Down Association, tests of 1981 and 1997 to 2004',
  S44: 'A commercial page on cloth of UHMWPE (weak)',
  S45: "The Complete Rigger's Apprentice, p. 407, and two public pages with the same sheet load formulas",
  S55: 'Yachting World, downwind sails and skippers surveys 2019; owners forums',
  S56: 'Rally and owners logs (vented sail in squalls)',
  S57: 'Owners forum (leeway of charter catamarans)',
} as const;
