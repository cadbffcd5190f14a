// How the program keeps its memory.
#pragma once

namespace platewright::cli {

// Drawing and placing take and give back much memory in turn; a sheet is soon made, so what was
// given back is kept for the next taker and not returned to the system and asked for anew. And it
// is asked for in few large pages where the system has them: first touches of small ones took a
// tenth of a poster's time on a virtual machine. Changes nothing but time; call it before the work.
void keep_memory();

}  // namespace platewright::cli
