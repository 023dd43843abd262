/* Twin of seamleaf/planning/prints/transport.py: minimum-cost assignment with many on either side. */
(function (prints) {
  "use strict";

  /* How much goes from each source to each sink; cost(source, sink, sent) and sinkCost(sink, taken) never fall. */
  function transport(supply, room, cost, sinkCost) {
    const sent = supply.map(() => room.map(() => 0));
    const taken = room.map(() => 0);

    function cheapestEnd(atSink) {
      let best = -1;
      let least = Infinity;
      room.forEach((most, t) => {
        if (taken[t] < most && atSink[t] < Infinity) {
          const reach = atSink[t] + sinkCost(t, taken[t]);
          if (reach < least) {
            least = reach;
            best = t;
          }
        }
      });
      return best;
    }

    function sendOne(source) {
      const atSource = supply.map(() => Infinity);
      const atSink = room.map(() => Infinity);
      const cameToSource = supply.map(() => -1);
      const cameToSink = room.map(() => -1);
      atSource[source] = 0;
      const queue = [source];
      const waiting = new Set(queue);
      while (queue.length) {
        const s = queue.shift();
        waiting.delete(s);
        const here = atSource[s];
        const own = sent[s].slice();
        for (let t = 0; t < room.length; t += 1) {
          const reach = here + cost(s, t, own[t]);
          if (!room[t] || reach >= atSink[t]) {
            continue;
          }
          atSink[t] = reach;
          cameToSink[t] = s;
          for (let back = 0; back < sent.length; back += 1) {
            const their = sent[back][t];
            if (their && back !== s && reach - cost(back, t, their - 1) < atSource[back]) {
              atSource[back] = reach - cost(back, t, their - 1);
              cameToSource[back] = t;
              if (!waiting.has(back)) {
                waiting.add(back);
                queue.push(back);
              }
            }
          }
        }
      }
      let sink = cheapestEnd(atSink);
      taken[sink] += 1;
      for (;;) {
        const s = cameToSink[sink];
        sent[s][sink] += 1;
        if (s === source) {
          return;
        }
        sink = cameToSource[s];
        sent[s][sink] -= 1;
      }
    }

    supply.forEach((units, source) => {
      for (let unit = 0; unit < units; unit += 1) {
        sendOne(source);
      }
    });
    return sent;
  }

  prints.transport = transport;
})(window.seamleafPrints = window.seamleafPrints || {});
