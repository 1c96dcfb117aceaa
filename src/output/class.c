/* What the class tools share. */
#include "output/class.h"

enum look telling_look(const struct telling *telling)
{
    return sheet_look(telling->form);
}
