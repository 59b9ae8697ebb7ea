import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { checkCompleteBoat, settingOf } from '../src/boat/boat.js';
import { kindOf, OPERATIONS, SOURCES } from '../src/catalogue/catalogue.js';
import { faultList } from '../src/errors.js';
import {
  type Boat,
  type BoatFile,
  completeBoat,
  describeFault,
  type Fault,
  InputError,
  type PolarSet,
  planJson,
  planMarkdown,
  planPassage,
  readBoat,
  readPolars,
  type Sail,
  SAIL_KINDS,
  type SailGiven,
  type SailKind,
  type SailPlan,
  sailPlanSchemaIsPrivate,
  totalsOf,
  totalsText,
  wardrobeWarnings,
} from '../src/index.js';
