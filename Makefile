# make            builds build/quern            make setup    installs what building and testing need (Debian, npm)
# make test       runs every test               make demo     reports the demo kitchen
# make test-long  every failure of a call or an allocation
# make lint       rooms, names, cppcheck        make bench    measures speed (never a test)
# make SAN=1 …    with sanitizers, in build-san make V=1 …    shows the commands
CC ?= cc
HOSTCC ?= cc
CFLAGS ?= -O3 -g -flto=auto
PREFIX ?= /usr/local
PACKAGES := build-essential flex bison pkg-config libcjson-dev libutf8proc-dev check clang cppcheck units \
            python3 python3-jsonschema sqlite3 strace git chromium poppler-utils fonts-dejavu-core \
            $(if $(shell command -v npm),,nodejs npm)   # npm may have come with another package of Node

out := build
ifdef SAN                               # a comma inside $(if …) would split the flags
out := build-san
san := -fsanitize=address,undefined -fno-sanitize-recover=undefined -fno-omit-frame-pointer
endif

warnings := -Wall -Wextra -Wformat=2 -Wshadow -Wstrict-prototypes -Wmissing-prototypes -Wconversion -Wno-sign-conversion
quern_flags = -std=c11 -D_POSIX_C_SOURCE=200809L $(warnings) $(san) -Isrc -I$(out)/grammar -DQUERN_VERSION='"$(version)"' -MMD -MP
version := 0.2.0
libs := -Wl,--as-needed -lcjson -l:libutf8proc.a -lm

sources := $(sort $(shell find src -name '*.c' ! -name main.c ! -name pack_main.c))
objects := $(sources:src/%.c=$(out)/%.o) $(out)/grammar/quern.tab.o $(out)/grammar/scan.o
maps := $(sort $(wildcard stdlib/import/*.map))
stdlib := $(sort $(shell find stdlib -name '*.quern'))
say = $(if $(V),,@printf '  %-6s %s\n' $(1) $(2);)

.DELETE_ON_ERROR:
.PHONY: all units setup test test-long demo lint bench clean install help golden
all: $(out)/quern

setup:
	@./tests/support/setup $(PACKAGES)
	@./tests/support/setup-pages

# One bison run, two files: "&:" keeps -j right.
$(out)/grammar/quern.tab.c $(out)/grammar/quern.tab.h &: grammar/quern.y
	@mkdir -p $(@D)
	$(call say,BISON,$<)bison -Wall -Wcounterexamples -Werror --header=$(out)/grammar/quern.tab.h -o $(out)/grammar/quern.tab.c $<
$(out)/grammar/quern.lex.c: grammar/quern.l
	@mkdir -p $(@D)
	$(call say,FLEX,$<)flex -Cf -o $@ $<
# Generated code is not ours to warn about.
$(out)/grammar/quern.tab.o: $(out)/grammar/quern.tab.c
	$(call say,CC,$<)$(CC) $(quern_flags) -w $(CFLAGS) -c $< -o $@
$(out)/grammar/scan.o: $(out)/grammar/quern.lex.c $(out)/grammar/quern.tab.h
	$(call say,CC,$<)$(CC) $(quern_flags) -w $(CFLAGS) -fno-lto -c $< -o $@
$(out)/%.o: src/%.c | $(out)/grammar/quern.tab.h
	@mkdir -p $(@D)
	$(call say,CC,$<)$(CC) $(quern_flags) $(CFLAGS) -c $< -o $@

# The bootstrap: the same rooms compile stdlib/ into a pack, which is then embedded.
pack_objects = $(filter $(out)/base/% $(out)/finding/% $(out)/text/% $(out)/library/% $(out)/grammar/%,$(objects))
$(out)/quern-pack: $(pack_objects) $(out)/pack_main.o
	$(call say,LD,$@)$(CC) $(san) $(CFLAGS) $^ $(LDFLAGS) $(libs) -o $@
$(out)/stdlib.pack: $(out)/quern-pack $(stdlib)
	$(call say,PACK,$@)$(out)/quern-pack -o $@ $(stdlib)
$(out)/stdlib.S: $(out)/stdlib.pack
	@printf '.section .rodata\n.balign 4096\n.global quern_stdlib_pack\nquern_stdlib_pack:\n.incbin "%s"\n.global quern_stdlib_pack_end\nquern_stdlib_pack_end:\n.byte 0\n.section .note.GNU-stack,"",@progbits\n' $< > $@
$(out)/stdlib.o: $(out)/stdlib.S
	$(call say,AS,$<)$(CC) -c $< -o $@
# What published tables look like: mappings, embedded as text.
$(out)/maps.S: $(maps)
	@mkdir -p $(@D)
	@for map in $^; do name=quern_map_$$(basename $$map .map); \
	  printf '.section .rodata\n.global %s\n%s:\n.incbin "%s"\n.byte 0\n' $$name $$name $$map; \
	done > $@; printf '.section .note.GNU-stack,"",@progbits\n' >> $@
$(out)/maps.o: $(out)/maps.S
	$(call say,AS,$<)$(CC) -c $< -o $@
# How pages look, without comments and blanks, and the hash by which their policy names it.
$(out)/page.css: src/output/page.css
	@mkdir -p $(@D)
	$(call say,CSS,$@)sed -e 's,^ *,,' -e '/^\/\*.*\*\/$$/d' -e '/^$$/d' $< | tr -d '\n' > $@
$(out)/page.S: $(out)/page.css
	@printf '.section .rodata\n.global quern_page_css\nquern_page_css:\n.incbin "%s"\n.byte 0\n.global quern_page_css_hash\nquern_page_css_hash:\n.asciz "%s"\n.section .note.GNU-stack,"",@progbits\n' \
	  $< "`sha256sum $< | cut -c1-64 | tr a-f A-F | basenc --base16 -d | base64`" > $@
$(out)/page.o: $(out)/page.S
	$(call say,AS,$<)$(CC) -c $< -o $@
$(out)/libquern.a: $(objects) $(out)/stdlib.o $(out)/maps.o $(out)/page.o
	$(call say,AR,$@)rm -f $@; $(AR) rcs $@ $^
# At a fixed place: to relocate the program at each start is a tenth of the time that checking one recipe takes. With
# `make PIE=1` its place is random, for those who check files of strangers on a machine that matters.
$(out)/quern: $(out)/main.o $(out)/libquern.a
	$(call say,LD,$@)$(CC) $(san) $(CFLAGS) $(if $(SAN)$(PIE),,-no-pie) $^ $(LDFLAGS) $(libs) -o $@

# A unit suite is one program, linked with the library.
units: $(patsubst tests/unit/%.c,$(out)/unit/%,$(sort $(wildcard tests/unit/test_*.c)))
$(out)/unit/%: tests/unit/%.c tests/unit/support.c $(wildcard tests/unit/*.h) $(out)/libquern.a
	@mkdir -p $(@D)
	$(call say,CC,$<)$(CC) $(filter-out -MMD -MP -Wconversion,$(quern_flags)) -Itests $(CFLAGS) $(filter %.c %.a,$^) $(LDFLAGS) $(libs) `pkg-config --cflags --libs check` -o $@

demo: $(out)/quern
	@$(out)/quern report examples/millrace || test $$? -eq 1

test: all
	@./tests/run

test-long: all
	@./tests/run long

golden: $(out)/quern
	@./tests/golden/run --update

lint:
	@./tests/support/lint

bench: $(out)/quern $(out)/quern-pack
	@QUERN=$(out)/quern ./tests/bench/run
	@QUERN=$(out)/quern BENCH_DIR=$(out)/bench ./tests/bench/import

install: $(out)/quern
	install -D $(out)/quern $(DESTDIR)$(PREFIX)/bin/quern
	install -D -m 644 docs/man/quern.1 $(DESTDIR)$(PREFIX)/share/man/man1/quern.1

clean:
	rm -rf build build-san build-clang build-small

help:
	@sed -n '1,5s/^# //p' Makefile

-include $(objects:.o=.d) $(out)/main.d $(out)/pack_main.d
