/* What the class tools share. */
#include "output/class.h"

enum look telling_look(const struct telling *telling)
{
    (void)telling;
    return LOOK_TEXT;
}
