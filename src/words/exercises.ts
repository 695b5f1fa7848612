import { EXERCISES } from './en/exercises';
import { speaker } from './speaker';

export const sayExercises = speaker('exercises', EXERCISES);
