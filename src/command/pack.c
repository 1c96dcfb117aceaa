/* quern pack -o FILE PATH... */
#include "command/command.h"

static const char help[] =
    "quern pack --out FILE PATH...   compile foods, labels, units and treatments into a pack\n"
    "\n"
    "A kitchen takes the pack in with a line of its kitchen.quern: use \"shop.pack\". A pack is opened in no time,\n"
    "however many foods it holds, and is refused when it is damaged or was made by another version of Quern.\n"
    "\n"
    "Examples:\n"
    "  quern pack --out shop.pack shop.quern\n"
    "  quern pack --out all.pack imported/\n"
    "\n"
    "Options:\n"
    "  --out FILE             the pack; it appears only when it is complete\n"
    "  --follow-links         paths may lead out of their folders through links\n"
    "  --library FILE         a library pack instead of the built-in one\n"
    "  --colour auto|always|never\n"
    "\n"
    "Exit status: 0 made, 1 findings of severity error (nothing is written), 2 the work could not be done.\n";

int command_pack(int count, char **arguments)
{
    struct options options;
    if (!options_read(&options, "pack", "out= follow-links library= colour=", count, arguments))
        return QUERN_FAILED;
    if (options.help)
        return command_print(help);
    if (!options.out || options.path_count == 0) {
        complain("quern pack: say what goes where: `quern pack --out shop.pack shop.quern`");
        return QUERN_FAILED;
    }
    struct quern_session *session = options_session(&options);
    if (!session)
        return QUERN_FAILED;
    int result = command_status(session, quern_pack(session, options.paths, (size_t)options.path_count, options.out, write_standard, NULL));
    quern_close(session);
    return result;
}
