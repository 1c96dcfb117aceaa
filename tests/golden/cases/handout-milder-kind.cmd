$ printf 'recipe "Beans" {\n serves 2\n 1 can (15 oz) chickpeas, drained\n 1 tbsp olive oil\n}\n' | "$QUERN" report --for patients -
status 0
out   3. You can buy a lower-sodium version: low sodium canned chickpeas instead of canned chickpeas. Read the packet.
