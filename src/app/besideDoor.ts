/** Where another player is put beside the one on the page: the part that does it is fetched late, and gives back a picture and words. */
import { createMeasuringDoor } from './measuringDoor';

/** In the place of the picture of one. */
export const besidePicture = createMeasuringDoor();
/** Below the sentence. */
export const besideWords = createMeasuringDoor();
