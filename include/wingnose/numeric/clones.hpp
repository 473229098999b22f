// One clone of a function per instruction set, chosen at load time. Sanitizers and other compilers use the portable
// version.
#pragma once

#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__) && !defined(__SANITIZE_ADDRESS__)
#define WINGNOSE_CLONES __attribute__((target_clones("arch=x86-64-v4", "arch=x86-64-v3", "default")))
#else
#define WINGNOSE_CLONES
#endif

// Of a function that such a one calls in its innermost loops, so that each clone contains it.
#define WINGNOSE_INTO_CLONES [[gnu::always_inline]] inline
