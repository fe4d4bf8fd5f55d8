# Sowmark en español. Sintaxis: projectfluent.org. Cada clave corresponde a la del inglés (core/texts/en.ftl para el
# cálculo, texts/en.ftl para las páginas) y dice una frase entera. Se trata de usted, en imperativo o en infinitivo.
#
# Glosario: un término para cada cosa, siempre el mismo.
#   seeder            sembradora                 run                 bajada (también surtidor, tubo)
#   metering unit     dosificador                catch (the seed)    recogida
#   meter, roller     rodillo dosificador        catch (the act)     ensayo; catch again: repetir el ensayo
#   meter factor      factor por vuelta          repeat              repetición
#   calibration       calibración                revolution          vuelta
#   drive             accionamiento              drive ratio         relación de transmisión
#   gate              compuerta                  roller speed        velocidad del rodillo
#   tank              tolva                      driving speed       velocidad de avance
#   lot               lote de semilla            rate                dosis de siembra
#   thousand-seed w.  peso de mil semillas       bulk density        peso hectolítrico
#   germination       poder germinativo          pure live seed      semilla pura viva
#   emergence         emergencia                 establishment       logro (plantas logradas)
#   scale             balanza                    readability, step   división de la balanza
#   tare, gross       tara, peso bruto           known mass          pesa patrón
#   tolerances        tolerancias                spread              diferencia
#   uncertainty       incertidumbre              scatter             dispersión
#   job               labor                      season              campaña
#   crew              equipo                     office              oficina
#   part              pieza                      working width       ancho de labor
#   sheet             planilla                   row spacing         distancia entre surcos

language-name = Español
catch-without-label = recogida { $number }

## Comprobaciones de una calibración

check-repeats-too-few = { $kept ->
    [one] Queda { $kept } repetición y se piden { $least } como mínimo: repita el ensayo.
   *[other] Quedan { $kept } repeticiones y se piden { $least } como mínimo: repita el ensayo.
}
check-repeats-least = { $kept ->
    [one] Queda { $kept } repetición, el mínimo admitido; una más mostraría de cuál fiarse.
   *[other] Quedan { $kept } repeticiones, el mínimo admitido; una más mostraría de cuáles fiarse.
}
check-repeats-enough = { $kept ->
    [one] Queda { $kept } repetición; se piden { $least } como mínimo.
   *[other] Quedan { $kept } repeticiones; se piden { $least } como mínimo.
}
check-repeat-agreement = Las repeticiones difieren en un { $spread }; el límite es { $limit } %.
check-repeat-agreement-rounding = No es más de lo que explica el redondeo de la balanza: recoja más semilla, el rodillo
    dosificador no tiene por qué fallar.
check-repeat-agreement-scatter = Es más de lo que explica el redondeo de la balanza.
check-run-uniformity = Las bajadas varían un { $cv } (coeficiente de variación de hasta { $catches } recogidas); el límite
    es { $limit } %.
check-run-uniformity-farthest = { $side ->
    [below] La más alejada es { $run }, un { $off } por debajo de la media.
   *[above] La más alejada es { $run }, un { $off } por encima de la media.
}
check-run-uniformity-interval = Con tan pocas bajadas, el valor verdadero puede estar entre { $low } y { $high }.
check-catches-apart = Las bajadas se pesaron por separado.
check-catches-apart-in-groups = Se pesaron grupos de bajadas por separado; no se distingue una bajada dentro de su grupo.
check-catches-apart-together = Las bajadas se juntaron en un solo peso y no se pudieron comparar.
check-catches-apart-single = Se recogió una sola bajada y no hubo con qué compararla.
check-catch-mass-rounding = El redondeo de la balanza es { $rounding } de una recogida y el límite es { $limit } %: para
    eso una recogida necesita { $needed }.
check-catch-mass-enough = La menor tiene { $smallest }.
check-catch-mass-too-light = La menor tiene { $smallest }: recoja más semilla o use una balanza más fina.
check-catch-mass-thumb = La menor tiene { $smallest }, menos que los { $rule } de la regla práctica.
check-catch-mass-thumb-small-seed = La menor tiene { $smallest }, menos que los { $rule } de la regla práctica para
    semilla pequeña.
check-uncertainty = El factor por vuelta se conoce con un margen de ± { $within } (95 %); el límite es { $limit } %.
check-uncertainty-most = La parte mayor: { $part }.
check-roller-speed-beyond-drive = El ensayo se hizo a { $caught }; el accionamiento mantiene de { $least } a { $most }.
check-roller-speed-needed = El ensayo se hizo a { $caught }; { $rate } a { $speed } requieren { $needed }, con una
    diferencia de { $off }; hasta { $tolerance } % es bastante cercano.
check-roller-speed-within-drive = El ensayo se hizo a { $caught }, dentro de los { $least } a { $most } que mantiene el
    accionamiento.
check-scale-passed = La balanza superó una verificación en los últimos { $days } días.
check-scale-failed = La balanza no superó su última verificación: pese con otra, o repárela y verifíquela.
check-scale-long-ago = La última verificación de la balanza es de hace más de { $days } días: verifíquela con una pesa
    patrón.
check-scale-never = La balanza nunca se verificó: verifíquela con una pesa patrón.
check-scale-not-named = No se indicó la balanza, de modo que no se sabe nada de sus verificaciones.
check-plausibility = El factor por vuelta está un { $off } { $side ->
        [below] por debajo
       *[above] por encima
    } de lo que hacían esperar { $source ->
        [calibration] la última calibración
        [calibration-and-density] la última calibración y el peso hectolítrico de la semilla entonces y ahora
       *[displacement] el volumen por vuelta del rodillo y el peso hectolítrico de la semilla
    }; a partir de { $remark } % conviene revisarlo, y si difiere más de { $fail } veces no se acepta.

## Las partes de una incertidumbre

budget-repeats-pooled = { $repeats ->
    [one] { $repeats } repetición, junto con la dispersión de ensayos anteriores que fijan las tolerancias
   *[other] { $repeats } repeticiones, junto con la dispersión de ensayos anteriores que fijan las tolerancias
}
budget-repeats-alone = { $repeats ->
    [one] { $repeats } repetición, tomada por sí sola como piden las tolerancias
   *[other] { $repeats } repeticiones, tomadas por sí solas como piden las tolerancias
}
budget-one-repeat = una repetición; su dispersión es la de ensayos anteriores que fijan las tolerancias
budget-one-repeat-unknown = una repetición sin ensayos anteriores: la dispersión que fijan las tolerancias, apenas conocida
budget-readings = { $readings ->
    [one] { $readings } lectura de la balanza, redondeada a su división
   *[other] { $readings } lecturas de la balanza, cada una redondeada a su división
}
budget-scale-checked = la balanza puede desviarse un { $error } %, como admite su última verificación; común a todas las
    recogidas
budget-scale-unchecked = la balanza puede desviarse un { $error } %, el doble del límite, a falta de una verificación vigente
budget-revolutions = las vueltas se conocen por pasos, al principio y al final
