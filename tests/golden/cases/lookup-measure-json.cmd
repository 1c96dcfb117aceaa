$ "$QUERN" lookup --as json pinch
status 0
schema lookup
out "measure":{"name":"pinch","unit":"ml","amount":{"low":0.1478,"best":0.2957,"high":0.6162}
