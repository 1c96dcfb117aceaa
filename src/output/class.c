/* What the class tools share. */
#include "output/class.h"

enum look telling_look(const struct telling *telling)
{
    return telling->form == QUERN_AS_MARKDOWN ? LOOK_MARKDOWN : telling->form == QUERN_AS_HTML ? LOOK_HTML : LOOK_TEXT;
}
