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
#   role              rol (oficina, equipo, agronomía)
#   sign in, out      ingresar, salir            token               clave de acceso
#   log (an entry)    anotar                     entry               entrada
#   outbox            bandeja de salida          not taken in        no se pudo incorporar
#   mend, drop        corregir, descartar        audit trail         registro de cambios
#   setup             montaje                    service             reparación
#   check (of a calibration, a number)  comprobación   scale check   verificación
#   look over (a form, a file)  revisar          key in              introducir
#   fill (a tank)     cargar, carga (solo eso)   label of a lot      rótulo
#   label of a door   etiqueta                   readiness board     estado de siembra
#   lay-up            cambio de uso, fuera de uso  waiver            excepción

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

## Unidades que son palabras

unit-catches = recogidas
unit-days = días
unit-degrees-of-freedom = grados de libertad
unit-g-per-thousand-seeds = g por mil semillas
unit-repeats = repeticiones
unit-standard-deviations = desviaciones típicas
unit-times = veces
unit-per-revolution = { $mass }/vuelta
unit-per-100-revolutions = { $mass }/100 vueltas

## Lo que se escribió y no se entiende como número

number-empty = «{ $given }» está vacío; escriba un número, como { $example }
number-too-long = «{ $given }» es demasiado largo; escriba 18 cifras como máximo
number-two-signs = «{ $given }» tiene más de un signo decimal; escríbalo sin separar los miles, como { $example }
number-none = «{ $given }» no es un número; escriba cifras con un solo signo decimal, como { $example }
number-not-json = «{ $given }» no es un número JSON; su signo decimal es el punto
number-exponent = «{ $given }» tiene un exponente fuera de lo admitido; escriba el número entero, con 18 cifras como máximo
number-too-many-decimals = «{ $given }» tiene demasiados decimales; escriba 18 como máximo
number-too-many-digits = «{ $given }» tiene demasiadas cifras; escriba 18 como máximo
number-none-at-front = «{ $given }» no empieza por un número; escriba un número y una unidad
number-pounds-signed = «{ $given }» lleva signo; libras y onzas juntas no son menores que cero
number-pounds-fraction = «{ $given }» tiene una fracción de libra y además onzas; indique libras enteras y onzas, o solo
    libras
number-sixteen-ounces = «{ $given }» tiene 16 onzas o más; junto a las libras las onzas son menos de 16
number-too-many-digits-in-all = «{ $given }» tiene demasiadas cifras; escriba 12 en total como máximo
unit-missing = falta la unidad de { $dimension }; se admiten { $allowed }
unit-unknown = «{ $given }» no es una unidad de { $dimension }; se admiten { $allowed }
ratio-none = «{ $given }» no es una relación de transmisión; escriba vueltas del rodillo a vueltas del accionamiento, como
    5:2 o { $example }
ratio-of-nothing = «{ $given }» no es una relación de transmisión; los dos números deben ser mayores que cero
ratio-out-of-bounds = «{ $given }» está fuera de lo admitido; una relación de transmisión está entre { $least } y { $most }

dimension-mass = masa
dimension-length = longitud
dimension-area = superficie
dimension-speed = velocidad
dimension-seed-weight = peso de semilla (por mil semillas)
dimension-bulk-density = peso hectolítrico
dimension-rate = dosis
dimension-meter-factor = factor por vuelta
dimension-volume = volumen
dimension-temperature = temperatura

## Lo imposible en una planilla; se dice tras el nombre del campo, sin mayúscula ni punto final

sheet-not-above-zero = { $what ->
    [pulses] los pulsos deben ser más de cero
    [pulses_per_rev] los pulsos por vuelta deben ser más de cero
    [turns] los giros deben ser más de cero
    [distance] la distancia debe ser mayor que cero
    [circumference] la circunferencia de rodadura debe ser mayor que cero
   *[revolutions] las vueltas deben ser más de cero
}
sheet-slip = el patinaje debe estar entre -50 y 90 %
sheet-too-many-revolutions = más de { $most } vueltas del rodillo; ningún ensayo necesita tantas, cuente de nuevo
sheet-no-repeat = todavía no se ha escrito nada: una calibración necesita al menos una repetición, con sus vueltas y lo recogido
sheet-all-set-aside = todas las repeticiones están apartadas; hay que conservar al menos una para calcular el factor
sheet-too-many-repeats = { $count } repeticiones; se admiten { $most } como máximo
sheet-no-catch = no hay ninguna recogida; pese al menos una
sheet-too-many-catches = { $count } recogidas; se admiten { $most } como máximo
sheet-too-many-runs = { $in_use ->
    [one] las recogidas suman { $runs } bajadas; el dosificador tiene { $in_use } bajada en uso
   *[other] las recogidas suman { $runs } bajadas; el dosificador tiene { $in_use } bajadas en uso
}
sheet-set-aside-without-reason = para apartar una repetición hace falta un motivo, como derrame o atasco
sheet-catch-of-no-run = una recogida contiene la semilla de al menos una bajada
sheet-tare-below-zero = una tara de { $tare } es menor que cero
sheet-tare-too-heavy = una tara de { $tare } pesa más que cualquier máquina; se admiten { $most } kg como máximo
sheet-gross-too-heavy = un peso bruto de { $gross } supera al de cualquier máquina; se admiten { $most } kg como máximo
sheet-no-seed = un peso bruto de { $gross } no deja semilla por encima de la tara de { $tare }; pese de nuevo o intercambie
    los dos
sheet-beyond-capacity = un peso bruto de { $gross } supera la capacidad de la balanza, { $capacity }
sheet-no-factor = estos números no dan un factor por vuelta; revise vueltas y pesos
circumstances-not-above-zero = { $what ->
    [runs] las bajadas en uso deben ser un número mayor que cero
    [width] el ancho de labor debe ser un número mayor que cero
    [roller-speed] la velocidad del rodillo debe ser un número mayor que cero
    [seed-weight] el peso de mil semillas debe ser un número mayor que cero
    [expected] el factor esperado debe ser un número mayor que cero
    [rate] la dosis prevista debe ser un número mayor que cero
    [speed] la velocidad de avance prevista debe ser un número mayor que cero
    [readability] la división de la balanza debe ser un número mayor que cero
   *[capacity] la capacidad de la balanza debe ser un número mayor que cero
}
circumstances-drive-range = un accionamiento de { $least } a { $most } rpm; el mínimo no debe superar al máximo

## Tolerancias: qué tiene de malo una, cómo se llaman, para qué sirve cada una

policy-unknown-field = { $name } no es una tolerancia
policy-not-true-or-false = { $name } es true (sí) o false (no)
policy-no-value = { $name } debe ser { $kind ->
        [whole] un número entero
       *[number] un número
    } de { $least } a { $most }{ $empty ->
        [allowed] , o quedar vacío para desactivarlo
       *[no] {""}
    }
policy-out-of-bounds = { $name } no puede ser { $given }; debe ser { $kind ->
        [whole] un número entero
       *[number] un número
    } de { $least } a { $most }{ $empty ->
        [allowed] , o quedar vacío para desactivarlo
       *[no] {""}
    }
policy-remark-above-limit = run_cv_remark_percent, { $remark }, es mayor que run_cv_limit_percent, { $limit }; la
    observación viene antes que el rechazo

policy-label-minimum_repeats = Repeticiones mínimas
policy-label-repeat_spread_limit_percent = Límite de la diferencia entre repeticiones
policy-label-run_cv_limit_percent = Límite del CV de las bajadas
policy-label-run_cv_remark_percent = Observación por el CV de las bajadas
policy-label-catch_resolution_limit_percent = Límite del redondeo sobre la recogida
policy-label-rule_of_thumb_catch_kg = Recogida de la regla práctica
policy-label-small_seed_catch_kg = Recogida de semilla pequeña
policy-label-small_seed_limit_g = Límite de la semilla pequeña
policy-label-uncertainty_limit_percent = Límite de la incertidumbre
policy-label-roller_speed_tolerance_percent = Tolerancia de la velocidad del rodillo
policy-label-scale_error_limit_percent = Límite del error de la balanza
policy-label-scale_check_interval_days = Intervalo de verificación de la balanza
policy-label-plausibility_fail_factor = Rechazo por factor inverosímil
policy-label-plausibility_remark_percent = Observación por factor inverosímil
policy-label-pooled_repeatability_percent = Repetibilidad conocida
policy-label-pooled_repeatability_degrees_of_freedom = Grados de libertad de la repetibilidad conocida
policy-label-seed_weight_tolerance_percent = Tolerancia del peso de la semilla
policy-label-recall_allowed = Recuperar un factor anterior
policy-label-interval_days = Intervalo en días
policy-label-interval_area_ha = Intervalo en superficie
policy-label-drift_lambda = Peso de la última labor en la deriva
policy-label-drift_limit_width = Amplitud del límite de la deriva
policy-label-drift_sigma_percent = Dispersión de las labores en la deriva
policy-label-weighed_balance_uncertainty_kg = Incertidumbre del balance pesado
policy-label-bag_mass_kg = Masa de una bolsa
policy-label-area_uncertainty_percent = Incertidumbre de la superficie

policy-because-minimum_repeats = Con menos repeticiones válidas que estas la calibración no se acepta. Valor inicial: dos son
    las mínimas que pueden mostrar un descuido; las recomendaciones publicadas sobre mediciones piden tres o más.
policy-because-repeat_spread_limit_percent = Si las repeticiones difieren en más que esto la calibración no se acepta; por
    encima de la mitad es una observación. Valor inicial: la regla de manual de más o menos 5 % para los ensayos de una
    sembradora.
policy-because-run_cv_limit_percent = Si las bajadas varían más que esto la calibración no se acepta. Valor inicial: el límite
    superior de los informes de evaluación de las praderas canadienses para grano y fertilizante (de memoria).
policy-because-run_cv_remark_percent = Si las bajadas varían más que esto hay una observación. Valor inicial: un centro
    provincial de ensayos calificó de muy bueno un 10 % o menos en sembradoras neumáticas.
policy-because-catch_resolution_limit_percent = El redondeo de la balanza puede ser esta parte de la menor recogida, no más.
    Valor inicial: un juicio, muy por debajo del límite de la diferencia entre repeticiones.
policy-because-rule_of_thumb_catch_kg = Una recogida más ligera recibe una observación. Valor inicial: práctica habitual, sin
    fuente.
policy-because-small_seed_catch_kg = Lo mismo para semilla pequeña, de la que un kilogramo tarda demasiado en recogerse. Valor
    inicial: práctica habitual, sin fuente.
policy-because-small_seed_limit_g = La semilla más ligera que esto cuenta como pequeña. Valor inicial: la colza y los pastos
    quedan por debajo, los cereales por encima; práctica habitual, sin fuente.
policy-because-uncertainty_limit_percent = Un factor que no se conoce mejor que esto no se acepta; por encima de la mitad es
    una observación. Valor inicial: tan amplio como la tolerancia de manual sobre la propia dosis.
policy-because-roller_speed_tolerance_percent = Un ensayo a una velocidad del rodillo más alejada que esto de la necesaria
    recibe una observación. Valor inicial: un juicio; los ensayos publicados muestran que la entrega depende de la
    velocidad, sin dar una sola cifra.
policy-because-scale_error_limit_percent = La balanza puede desviarse esta parte de la carga. Valor inicial: cerca de una
    división en doscientas, lo que una balanza de clase III en servicio puede mostrar con una recogida pequeña.
policy-because-scale_check_interval_days = La balanza pide una verificación con una pesa patrón cada tantos días. Valor
    inicial: un juicio, una o dos veces por campaña de siembra.
policy-because-plausibility_fail_factor = Un factor que difiere del esperado en más de estas veces no se acepta. Valor
    inicial: un juicio; los lotes de un cultivo difieren mucho menos, los descuidos más.
policy-because-plausibility_remark_percent = Un factor que difiere del esperado en más que esto recibe una observación. Valor
    inicial: un juicio; los ensayos en marcha y parados difieren de 4 a 15 % en pruebas publicadas.
policy-because-pooled_repeatability_percent = Cuánto varía una repetición, según ensayos anteriores. Valor inicial: un juicio;
    los dosificadores publicados repiten dentro de 0.5 a 1.3 %.
policy-because-pooled_repeatability_degrees_of_freedom = Cuán bien se conoce eso, como número de repeticiones anteriores menos
    una por calibración; 0 deja que el ensayo hable por sí solo. Valor inicial: un juicio.
policy-because-seed_weight_tolerance_percent = Un lote cuyo peso de mil semillas o peso hectolítrico cambió más que esto debe
    ensayarse de nuevo. Valor inicial: un juicio; el umbral publicado es 1 g por mil semillas de colza.
policy-because-recall_allowed = Un factor anterior sobre la misma base puede usarse otra vez tras un cambio y su vuelta atrás.
    Valor inicial: sí; desactívelo para ensayar después de cada cambio.
policy-because-interval_days = Un factor más antiguo que esto pide un nuevo ensayo. Valor inicial: desactivado; los demás
    motivos hablan por sí solos.
policy-because-interval_area_ha = Un factor que sembró más que esto pide un nuevo ensayo. Valor inicial: desactivado.
policy-because-drift_lambda = Cuánto pesa la última labor en el gráfico de la deriva. Valor inicial: el ejemplo resuelto del
    manual de métodos estadísticos del NIST.
policy-because-drift_limit_width = Hasta dónde puede llegar el gráfico de la deriva antes de pedir un ensayo. Valor inicial:
    tres desviaciones típicas, la costumbre de los gráficos de control.
policy-because-drift_sigma_percent = Cuánto se dispersa la semilla usada en labores sueltas. Valor inicial: un juicio.
policy-because-weighed_balance_uncertainty_kg = Con qué exactitud se conoce la semilla cargada menos la sobrante cuando se
    pesó. Valor inicial: una división de una báscula de camiones o de tolva.
policy-because-bag_mass_kg = Lo que contiene una bolsa, para labores conocidas por el número de bolsas. Valor inicial: la bolsa
    corriente.
policy-because-area_uncertainty_percent = Con qué exactitud se conoce la superficie de una labor. Valor inicial: un juicio,
    para superficies medidas por posicionamiento.

## Para qué sirve cada comprobación, en dos frases; de dónde viene

explained-repeats = Un solo ensayo puede estar mal por algo que nadie vio: una bolsa que se corrió, un comienzo tardío. Que dos
    coincidan no es casualidad, y un tercero dice de cuál de los dos fiarse.
explained-repeats-source = El National Physical Laboratory (Reino Unido) aconseja al menos tres intentos, para descubrir
    errores gruesos (Introducing measurement uncertainty, “Oops”).
explained-repeat_agreement = Cada repetición es el mismo trabajo hecho otra vez, de modo que todas deberían dar casi el mismo
    factor; aquí consta cuánto se aleja la mayor de la menor, como parte de su media. Cuando distan mucho, algo cambió
    entretanto, o la recogida es demasiado pequeña para la balanza.
explained-repeat_agreement-source = La regla de manual de más o menos 5 % para los ensayos de una sembradora (Introduction to
    Agricultural Engineering Technology); si el redondeo basta para explicarlo lo decide una prueba de ji cuadrado frente a
    la división de la balanza.
explained-run_uniformity = Las bajadas vecinas deberían recibir la misma semilla; el coeficiente de variación dice cuánto se
    alejan por lo común de su media, como parte de ella. Con dos o tres bolsas esa cifra es tosca, por lo que se da también
    el intervalo en que puede estar la verdadera.
explained-run_uniformity-source = Franjas publicadas para sembradoras neumáticas (un centro provincial de ensayos llama muy
    bueno a un 10 % o menos; el 15 % como límite superior es de memoria); el coeficiente es la desviación estándar con n − 1
    entre la media, y el intervalo es el de McKay modificado.
explained-catches_apart = Cuando se juntan las bolsas de varias bajadas, la suma puede ser correcta aunque una dé de menos y
    otra de más. Pesadas por separado, se ve cada bajada.
explained-catches_apart-source = Las hojas de extensión pesan y anotan por separado la semilla de cada abresurco (por ejemplo,
    unos apuntes de la India sobre la calibración de sembradoras).
explained-catch_mass = Una balanza muestra divisiones, y tanto la bolsa vacía como la llena se redondean a una; en una recogida
    pequeña ese redondeo es una parte grande de la semilla. La masa necesaria lo hace bastante pequeño, y más vueltas dan
    más masa.
explained-catch_mass-source = Una división d es una incertidumbre de d / √12 (JCGM 100:2008, F.2.2.1), así que una masa neta de
    dos lecturas tiene d / √6; la regla práctica que la acompaña es costumbre, sin fuente.
explained-uncertainty = Ninguna medición es exacta; esto es cuánto puede alejarse el factor verdadero del hallado hacia uno u
    otro lado, 19 veces de cada 20. Suma lo que dejan abierto las repeticiones, las divisiones de la balanza, la propia
    balanza y el recuento de las vueltas.
explained-uncertainty-source = Guía para la expresión de la incertidumbre de medida (JCGM 100:2008): suma en cuadratura,
    ampliada con la t de Student para los grados efectivos de libertad (G.4.1).
explained-roller_speed = Un dosificador no siempre da el doble de semilla cuando gira al doble, así que un factor se obtiene
    mejor a la velocidad a la que se usará. Fuera de las velocidades que el accionamiento mantiene, nada de lo dicho aquí
    ocurriría en el campo.
explained-roller_speed-source = La entrega cambia con la velocidad en ensayos publicados de rodillos acanalados (una
    sembradora de granos con caupí, 1985; Pantnagar Journal of Research 20, 2022); la tolerancia misma es un juicio.
explained-scale = Una balanza desviada desvía todas las recogidas en la misma proporción, y ninguna repetición lo mostrará.
    Una pesa patrón puesta en ella, sí.
explained-scale-source = Errores máximos permitidos de las balanzas no automáticas (UK SI 1995/1907, anexo 2; en servicio, el
    doble de los de verificación); el intervalo es un juicio.
explained-plausibility = Un dosificador entrega volumen, así que lo que este rodillo dio antes, o lo que cabe en una vuelta, por
    lo que pesa la semilla en su volumen, dice más o menos qué esperar. Un factor muy lejos de eso es más a menudo un
    descuido en la planilla que un cambio en la máquina.
explained-plausibility-source = La masa sigue al peso hectolítrico en los dosificadores volumétricos (North Dakota State
    University AE-1144); los ensayos en marcha y parados difieren de 4 a 15 % en pruebas publicadas, de modo que solo se
    rechaza una diferencia amplia.

## Cifras de un plan: cómo se llama cada una al comienzo de una frase, y qué hacer con una que no puede ser

figure-plants = El número de plantas deseadas
figure-seeds = El número de semillas
figure-seeds-counted = El número de semillas contadas
figure-sample-mass = La masa de la muestra
figure-seed-weight = El peso de mil semillas
figure-seeds-per-kg = El número de semillas por kg
figure-establishment = El logro
figure-germination = El poder germinativo
figure-emergence = La emergencia
figure-loss = La pérdida en el campo
figure-purity = La pureza
figure-hard-seed = La parte de semilla dura o latente
figure-rate = La dosis
figure-row-spacing = La distancia entre surcos
figure-bulk-density = El peso hectolítrico
figure-seed-weight-doubt = La duda sobre el peso de mil semillas
figure-share-doubt = La duda sobre un porcentaje
figure-slip = El patinaje
figure-metres-per-turn = El avance por vuelta de rueda
figure-setting = El ajuste anterior
figure-measured = El valor medido
figure-wanted = El valor deseado

figure-plants-remedy = Indique las plantas que deben quedar en un metro cuadrado.
figure-seeds-remedy = Revise las plantas deseadas y la parte que llega a nacer.
figure-seeds-counted-remedy = Cuente las semillas de una muestra pesada.
figure-sample-mass-remedy = Pese las semillas que contó.
figure-seed-weight-remedy = Indique los gramos de mil semillas.
figure-seeds-per-kg-remedy = Indique las semillas que hacen un kilogramo o una libra.
figure-establishment-remedy = Indique qué parte de las semillas llega a planta.
figure-germination-remedy = Indíquelo como figura en el análisis de la semilla.
figure-emergence-remedy = Indique qué parte de las semillas que germinan llega a nacer.
figure-loss-remedy = Indique los puntos porcentuales que se restan al poder germinativo.
figure-purity-remedy = Indíquela como figura en el análisis de la semilla.
figure-hard-seed-remedy = Indíquela como figura en el rótulo.
figure-rate-remedy = Revise la dosis y su unidad.
figure-row-spacing-remedy = Mida de surco a surco y revise la unidad.
figure-bulk-density-remedy = Revise el peso hectolítrico y su unidad.
figure-seed-weight-doubt-remedy = Indique la mitad del ancho de su intervalo.
figure-share-doubt-remedy = Indique la mitad del ancho de su intervalo.
figure-slip-remedy = Mídalo: metros por vuelta con carga frente a sin carga.
figure-metres-per-turn-remedy = Recorra una distancia medida y cuente las vueltas de la rueda.
figure-setting-remedy = Indique el ajuste como lo muestra su escala.
figure-measured-remedy = Indique lo que se recogió con el ajuste anterior.
figure-wanted-remedy = Indíquelo en la unidad de lo que se midió.

figure-no-number = { $figure } no es un número.
figure-outside = { $figure } no puede ser { $size ->
        [large] un valor tan grande
        [small] un valor tan pequeño
       *[plain] { $given }
    }; se admite { $bounds ->
        [above] más de { $least } y hasta { $most }
       *[from] de { $least } a { $most }
    }.
figure-nothing-comes-up = { $figure ->
    [emergence] Con una emergencia de 0 % no nace nada; debe ser mayor que 0 %.
   *[germination] Con un poder germinativo de 0 % no nace nada; debe ser mayor que 0 %.
}
figure-nothing-left = Una pérdida en el campo de { $loss } % no deja nada de un poder germinativo de { $germination } %; debe
    ser menor que el poder germinativo.
figure-beyond-all = Un poder germinativo de { $germination } % y un { $hard } % de semilla dura o latente suman más de 100 %.
    Los rótulos que indican la semilla dura aparte no la cuentan en el poder germinativo: indique este sin ella.
figure-too-doubtful = Las cifras se conocen solo dentro de { $within }, lo que no da ningún intervalo; hace falta menos de
    100 %. Analice el lote otra vez.
figure-per-square-metre = { $number } por m²
figure-points = { $number } puntos

## El factor como lo pide un controlador

keyed-per-revolution = { $unit } por vuelta
keyed-per-hundred-revolutions = { $unit } por 100 vueltas
keyed-for-run = por bajada
keyed-for-unit = dosificador entero

## El siguiente ajuste de la compuerta

gate-stay = Quédese en { $setting }, que ya da lo deseado.
gate-begin = { $direction ->
    [less] Empiece en { $setting }, un { $change } menos.
   *[more] Empiece en { $setting }, un { $change } más.
}
gate-guess = Es una primera aproximación por proporción: repita el ensayo con ese ajuste antes de sembrar.
gate-far = Un cambio de más de { $limit } % es grande: el flujo no sigue al ajuste en línea recta, así que cuente con ensayar
    dos veces.

## Cómo se calculó el logro esperado; se dice tras dos puntos

convention-given = logro tal como se indicó
convention-multiplied = poder germinativo por emergencia
convention-subtracted = poder germinativo menos pérdida en el campo, en puntos porcentuales

## El factor según la velocidad del rodillo

speed-differs = { $direction ->
    [falls] De { $from } a { $to } el factor por vuelta baja un { $size } (± { $within }, 95 %): haga el ensayo a la velocidad
        del rodillo con la que va a sembrar.
   *[rises] De { $from } a { $to } el factor por vuelta sube un { $size } (± { $within }, 95 %): haga el ensayo a la velocidad
        del rodillo con la que va a sembrar.
}
speed-not-shown = De { $from } a { $to } el factor por vuelta cambia un { $size }, dentro de los ± { $within } (95 %) que estos
    ensayos permiten distinguir: no se aprecia que dependa de la velocidad del rodillo.

## Las bajadas entre sí

runs-rounding = Las bajadas no difieren más de lo que explica el redondeo de la balanza: recoja más semilla para compararlas.
runs-repeats-rounding = Las repeticiones no difieren más de lo que explica el redondeo de la balanza: eso habla de la balanza,
    no del dosificador.
runs-always-low = { $times ->
    [caught] Cada vez que se recogió, { $run } dio menos que la media de las bajadas, un { $size } de promedio: revise su
        salida, su manguera y su parte del rodillo.
    [both] En las dos repeticiones { $run } dio menos que la media de las bajadas, un { $size } de promedio: revise su salida,
        su manguera y su parte del rodillo.
   *[all] En todas las repeticiones { $run } dio menos que la media de las bajadas, un { $size } de promedio: revise su salida,
        su manguera y su parte del rodillo.
}
runs-always-high = { $times ->
    [caught] Cada vez que se recogió, { $run } dio más que la media de las bajadas, un { $size } de promedio: revise las
        salidas de las demás y luego su parte del rodillo.
    [both] En las dos repeticiones { $run } dio más que la media de las bajadas, un { $size } de promedio: revise las salidas
        de las demás y luego su parte del rodillo.
   *[all] En todas las repeticiones { $run } dio más que la media de las bajadas, un { $size } de promedio: revise las salidas
        de las demás y luego su parte del rodillo.
}
runs-unequal-repeats = Las repeticiones son de distinta duración, y una corta no concuerda con las largas: su media simple se
    aparta un { $off } del factor, en el que cada vuelta cuenta igual. Haga repeticiones de igual duración.

## Lo que falta por recoger

advice-longer-repeats = { $more } vueltas más con esta balanza: con { $needed } por repetición todas las recogidas pesan
    bastante para que el redondeo de la balanza quede dentro de { $share } % de ellas. Aparte las repeticiones más cortas.
advice-scale-too-coarse = Esta balanza es demasiado tosca: una recogida bastante pesada para que su redondeo quede dentro de
    { $share } % es más de lo que la balanza puede pesar, o de lo que puede entregarse en una repetición. Use una balanza con
    una división menor.
advice-longer = { $repeats ->
    [one] Una repetición más de { $each } vueltas, { $more } más que la última, llevaría la incertidumbre a cerca de
        { $expected }, dentro { $goal ->
            [half] de la mitad del límite ({ $limit } %)
           *[whole] del límite de { $limit } %
        }, si la dispersión sigue como está.
   *[other] { $repeats } repeticiones más de { $each } vueltas cada una, { $more } más que la última, llevarían la
        incertidumbre a cerca de { $expected }, dentro { $goal ->
            [half] de la mitad del límite ({ $limit } %)
           *[whole] del límite de { $limit } %
        }, si la dispersión sigue como está.
}
advice-alike = { $repeats ->
    [one] Una repetición más como la última, de { $each } vueltas, llevaría la incertidumbre a cerca de { $expected }, dentro
        { $goal ->
            [half] de la mitad del límite ({ $limit } %)
           *[whole] del límite de { $limit } %
        }, si la dispersión sigue como está.
   *[other] { $repeats } repeticiones más como la última, de { $each } vueltas cada una, llevarían la incertidumbre a cerca de
        { $expected }, dentro { $goal ->
            [half] de la mitad del límite ({ $limit } %)
           *[whole] del límite de { $limit } %
        }, si la dispersión sigue como está.
}
advice-scale-check-instead = También bastaría superar una verificación de la balanza, que la llevaría a { $expected }.
advice-not-by-catching = Ni { $repeats } repeticiones más llevarían la incertidumbre dentro { $goal ->
        [half] de la mitad del límite ({ $limit } %)
       *[whole] del límite de { $limit } %
    }; lo mejor sería { $best }: { $because ->
        [checked-scale] es lo que puede desviarse la balanza. Hace falta una balanza mejor y un límite más estricto para sus
            verificaciones.
        [scale] es lo que puede desviarse la balanza. Superar una verificación con una pesa patrón reduce esa parte a la mitad.
        [scatter] es lo que se dispersan las repeticiones.
        [much-scatter] las repeticiones se dispersan demasiado. Averigüe por qué difieren antes de recoger más.
        [step] es la división de la balanza. Use una con una división menor.
       *[revolutions] es lo tosco del recuento de las vueltas. Cuente en pasos menores.
    }

## Estado de siembra

trigger-unknown = «{ $given }» no es un motivo; use uno de { $names }

## Una cifra lejos de lo que debería rondar, como pregunta a quien lee el registro

unlikely-job-area = { $area } es { $times } veces lo que mide el campo, { $field }. ¿Un error al anotar?
unlikely-job-rate = { $side ->
    [above] La dosis real de { $rate } es { $times } veces la deseada de { $target }. ¿Un error al anotar?
   *[below] La dosis deseada de { $target } es { $times } veces la real de { $rate }. ¿Un error al anotar?
}
unlikely-seed-weight = { $side ->
    [above] { $found } por mil semillas es { $times } veces lo que dio el análisis anterior, { $before }. ¿Un error al anotar?
   *[below] { $found } por mil semillas: el análisis anterior dio { $before }, { $times } veces eso. ¿Un error al anotar?
}
unlikely-bulk-density = { $side ->
    [above] { $found } es { $times } veces lo que dio el análisis anterior, { $before }. ¿Un error al anotar?
   *[below] { $found }: el análisis anterior dio { $before }, { $times } veces eso. ¿Un error al anotar?
}
unlikely-fill = { $mass } es más de lo que había entrado de este lote, { $came }. ¿Un error al anotar?

## Lo que más probablemente salió mal: qué revisar

suspicion-would-be = El factor sería entonces { $factor } g/vuelta.
suspicion-would-be-without-them = Sin ellas el factor sería { $factor } g/vuelta.
suspicion-would-be-without-it = Sin ella el factor sería { $factor } g/vuelta.
suspicion-right-for-that-roller = El factor medido, { $factor } g/vuelta, es entonces el correcto para ese rodillo.
suspicion-bags-of-the-last-calibration = { $tare ->
    [none] Quizá se pesaron también las bolsas: no se descontó tara, y las bolsas de la última calibración pesaban { $usual }.
   *[little] Quizá se pesaron también las bolsas: apenas se descontó tara, y las bolsas de la última calibración pesaban
        { $usual }.
}
suspicion-tare-missing = No se descontó tara de { $catch } en la repetición { $repeat }, y las demás bolsas pesan { $bags }:
    pese su bolsa vacía.
suspicion-bags-of-a-repeat = Quizá se pesaron también las bolsas de la repetición { $repeat }: las demás tienen una tara de
    { $bags }.
suspicion-some-bags = { $count ->
    [one] Quizá se pesó también { $count } bolsa: las demás tienen una tara de { $bags }.
   *[other] Quizá se pesaron también { $count } bolsas: las demás tienen una tara de { $bags }.
}
suspicion-shown-in-pounds = { $repeat ->
    [0] Quizá la balanza mostraba libras que se anotaron como kilogramos: mire la unidad en su pantalla.
   *[other] Quizá la balanza mostraba libras en la repetición { $repeat } que se anotaron como kilogramos: mire la unidad en
        su pantalla.
}
suspicion-shown-in-kilograms = { $repeat ->
    [0] Quizá la balanza mostraba kilogramos que se anotaron como libras: mire la unidad en su pantalla.
   *[other] Quizá la balanza mostraba kilogramos en la repetición { $repeat } que se anotaron como libras: mire la unidad en
        su pantalla.
}
suspicion-ounces-as-tenths = { $repeat ->
    [0] Quizá las libras y onzas se anotaron como un solo decimal, { $example } lb por 5 lb 8 oz: anote libras y onzas por
        separado.
   *[other] Quizá las libras y onzas de la repetición { $repeat } se anotaron como un solo decimal, { $example } lb por
        5 lb 8 oz: anote libras y onzas por separado.
}
suspicion-decimal-sign = { $repeat ->
    [0] Quizá el signo decimal está corrido un lugar en los pesos o en las vueltas: compare la planilla con la balanza.
   *[other] Quizá el signo decimal está corrido un lugar en los pesos o en las vueltas de la repetición { $repeat }: compare la
        planilla con la balanza.
}
suspicion-decimal-sign-of-the-grosses = { $repeat ->
    [0] Quizá el signo decimal está corrido un lugar en los pesos brutos: compare la planilla con la balanza.
   *[other] Quizá el signo decimal está corrido un lugar en los pesos brutos de la repetición { $repeat }: compare la planilla
        con la balanza.
}
suspicion-decimal-sign-of-the-tares = { $repeat ->
    [0] Quizá el signo decimal está corrido un lugar en las taras: compare la planilla con la balanza.
   *[other] Quizá el signo decimal está corrido un lugar en las taras de la repetición { $repeat }: compare la planilla con la
        balanza.
}
suspicion-decimal-sign-of-the-revolutions = { $repeat ->
    [0] Quizá el signo decimal de las vueltas está corrido un lugar: léalo de nuevo.
   *[other] Quizá el signo decimal de las vueltas está corrido un lugar en la repetición { $repeat }: léalo de nuevo.
}
suspicion-decimal-sign-of-a-reading = Quizá el signo decimal { $reading ->
        [gross] del peso bruto
        [tare] de la tara
       *[both] del peso bruto y de la tara
    } de { $catch } en la repetición { $repeat } está corrido un lugar: compare con la balanza.
suspicion-half-of-each-run = { $repeat ->
    [0] Quizá se recogió una sola rama de cada bajada: siga cada manguera desde el dosificador hasta todos sus extremos.
   *[other] Quizá se recogió una sola rama de cada bajada en la repetición { $repeat }: siga cada manguera desde el dosificador
        hasta todos sus extremos.
}
suspicion-one-run-more = { $repeat ->
    [0] Quizá hay en cada recogida una bajada más de las anotadas: cuente las bajadas que terminaban en ella.
   *[other] Quizá hay en cada recogida de la repetición { $repeat } una bajada más de las anotadas: cuente las bajadas que
        terminaban en ella.
}
suspicion-one-run-fewer = { $repeat ->
    [0] Quizá hay en cada recogida una bajada menos de las anotadas: cuente las bajadas que terminaban en ella.
   *[other] Quizá hay en cada recogida de la repetición { $repeat } una bajada menos de las anotadas: cuente las bajadas que
        terminaban en ella.
}
suspicion-runs-of-a-catch = { $catch } de la repetición { $repeat } quizá contiene { $runs } bajadas y no { $entered }: cuente
    las bajadas que terminaban en esa bolsa.
suspicion-revolutions-doubled = { $repeat ->
    [0] Quizá se anotó el doble de las vueltas verdaderas: cuente otra vez vueltas completas del eje del propio rodillo.
   *[other] Quizá se anotó en la repetición { $repeat } el doble de las vueltas verdaderas: cuente otra vez vueltas completas
        del eje del propio rodillo.
}
suspicion-revolutions-halved = { $repeat ->
    [0] Quizá se anotó la mitad de las vueltas verdaderas: cuente otra vez vueltas completas del eje del propio rodillo.
   *[other] Quizá se anotó en la repetición { $repeat } la mitad de las vueltas verdaderas: cuente otra vez vueltas completas
        del eje del propio rodillo.
}
suspicion-other-drive-ratio = Quizá la relación de transmisión es { $ratio } y no { $on_record } como consta: mire los piñones o
    la marcha que está puesta.
suspicion-run-low = { $run } dio solo un { $share } de las demás: busque un atasco, semilla que hace bóveda o una boca de
    manguera tapada.
suspicion-run-low-once = { $run } dio solo un { $share } de las demás en la repetición { $repeat }: busque un atasco, semilla
    que hace bóveda o una boca de manguera tapada.
suspicion-run-low-sometimes = { $count ->
    [one] { $run } dio solo un { $share } de las demás en { $count } repetición: busque un atasco, semilla que hace bóveda o una
        boca de manguera tapada.
   *[other] { $run } dio solo un { $share } de las demás en { $count } repeticiones: busque un atasco, semilla que hace bóveda
        o una boca de manguera tapada.
}
suspicion-not-primed = La primera repetición dio un { $less } menos que las demás: quizá el dosificador no estaba lleno. Gire
    hasta que caiga semilla de todas las bajadas, vacíe las bolsas y entonces empiece.
suspicion-other-roller = Quizá está puesto otro rodillo: se recogió lo que debería dar “{ $roller }”. Mire el rodillo.

## Un archivo de datos de tareas: qué tiene de malo, o qué no se lee

task-data-at = { $place }: { $says }
task-data-place-zip = el zip
task-data-place-line = { $file }, línea { $line }
task-data-place-element = { $file }, línea { $line }, { $element }
task-data-empty = El archivo está vacío. Exporte de nuevo los datos de tareas.
task-data-not-xml = No es XML ni un zip. Elija TASKDATA.XML, o un zip de la carpeta que lo contiene.
task-data-not-utf-8 = Aquí hay una letra que no está escrita en UTF-8, como deben estarlo los datos de tareas. Exporte de
    nuevo el archivo.
task-data-broken = El XML está roto aquí. Exporte de nuevo el archivo; uno que se editó a mano no se puede leer.
task-data-breaks-off = El archivo se corta aquí. Cópielo otra vez del terminal y espere a que termine la copia.
task-data-entity = Aquí hay un tipo de documento o una entidad, que los datos de tareas nunca tienen. Exporte de nuevo el
    archivo.
task-data-wrong-root = Es XML, pero no son datos de tareas: su primer elemento no es { $wanted }. Elija TASKDATA.XML.
task-data-version = El archivo dice ser de la versión { $given } del formato. Se leen las versiones 3 y 4: exporte una de
    ellas.
task-data-too-large = El XML pasa de { $most } MB. Exporte menos tareas a la vez.
task-data-too-many-elements = Hay más de { $most } elementos. Exporte menos tareas a la vez.
task-data-too-many-tasks = Hay más de { $most } tareas. Exporte menos a la vez.
task-data-too-many-tanks = Las tareas sembraron en conjunto de más de { $most } tolvas. Exporte menos tareas a la vez.
task-data-too-deep = Los elementos están a más de { $most } niveles, lo que no ocurre en los datos de tareas. Exporte de nuevo
    el archivo.
task-data-too-many-attributes = Un elemento tiene más de { $most } atributos, como ninguno de los datos de tareas. Exporte de
    nuevo el archivo.
task-data-too-long = El atributo { $attribute } pasa de { $most } bytes. Acorte el nombre donde se puso y exporte de nuevo.
task-data-zip-broken = El zip está dañado. Comprímalo o cópielo otra vez.
task-data-zip-files = El zip contiene más de { $most } archivos. Comprima solo la carpeta con TASKDATA.XML.
task-data-zip-ratio = Un archivo ocupa descomprimido más de { $most } veces su tamaño, lo que no ocurre en los datos de
    tareas. Comprímalo otra vez.
task-data-zip-method = El archivo está comprimido con un método que no se lee. Comprímalo como zip corriente (deflate).
task-data-zip-encrypted = El archivo está cerrado con una contraseña. Comprímalo sin ella.
task-data-no-task-file = No hay ningún TASKDATA.XML en el zip. Comprima la carpeta que lo contiene.
task-data-several-task-files = El zip contiene varios archivos de tareas, «{ $first }» y «{ $second }». Envíelos uno por uno.
task-data-attribute-missing = Falta el atributo { $attribute }, que el formato exige. Exporte de nuevo el archivo.
task-data-not-a-number = El atributo { $attribute } es «{ $given }», que no es un número. Exporte de nuevo el archivo.
task-data-out-of-range = El atributo { $attribute } es { $given }; puede ir de { $least } a { $most }. Exporte de nuevo el
    archivo.
task-data-wrong-id = El identificador «{ $given }» no corresponde a su elemento: se espera la etiqueta y un número. Exporte
    de nuevo el archivo.
task-data-id-twice = El identificador «{ $given }» ya se dio en la línea { $line }. Exporte de nuevo el archivo.
task-data-not-there = El atributo { $attribute } nombra «{ $given }», que el archivo no contiene. Expórtelo con todo aquello
    a lo que se refiere.
task-data-not-a-time = El atributo { $attribute } es «{ $given }», que no es una hora entre 1990 y 2099. Ponga en hora el
    terminal y anote esta labor a mano.
task-data-ends-before-it-begins = Termina antes de empezar. Anote esta labor a mano, con las horas correctas.
task-data-times-of-two-kinds = Unas horas llevan su diferencia horaria y otras no, de modo que no se conoce su orden. Anote
    esta labor a mano.
task-data-not-described = La máquina anota aquí { $ddi } y no lo describe, así que no se distingue un total de la tarea de
    uno de toda su vida: no se usa.
task-data-total-twice = El total { $ddi } está aquí dos veces con valores distintos. Anote esta labor a mano.
task-data-total-negative = El total { $ddi } es { $given }: el contador se desbordó. Anote esta labor a mano.
task-data-masses-apart = Los dos totales de la máquina difieren en más de un kilogramo: { $grams } g y { $kilograms } kg. Anote
    esta labor a mano.
task-data-two-products = «{ $first }» y «{ $second }» estuvieron en la misma tolva durante la tarea y el total no se puede
    repartir entre ellos. Anote esta labor a mano.
task-data-no-area = La máquina no contó superficie para ello. Anote esta labor a mano.
task-data-no-mass = No hay masa para ello, ni la de la máquina ni una pesada. Anote esta labor a mano.
task-data-nothing-sown = Ninguna tolva tiene un total de masa: no se sembró nada, o la máquina no lo cuenta.
task-data-counter-set-back = { $times ->
    [one] El contador de { $ddi } volvió a cero una vez durante la tarea; se sumaron sus dos partes.
   *[other] El contador de { $ddi } volvió a cero { $times } veces durante la tarea; se sumaron sus partes.
}
task-data-rate-varies = La dosis varió dentro del campo y no hay un solo objetivo: escriba el que quería.
task-data-log-not-read = El registro «{ $file }» no se lee; los totales vienen de los tiempos de la tarea.
task-data-file-not-read = El archivo adjunto «{ $file }» no se lee.
task-data-file-missing = Falta el archivo «{ $file }», que forma parte de los datos. Envíe un zip de toda la carpeta.
task-data-links-not-read = La lista de vínculos con otros programas no se lee; no contiene nada de una labor.
task-data-unknown = { $count ->
    [one] Un elemento { $tag } no se conoce aquí y se omitió.
   *[other] { $count } elementos { $tag } no se conocen aquí y se omitieron; este es el primero.
}

## Fechas en las frases

date-month = { $month ->
    [1] enero
    [2] febrero
    [3] marzo
    [4] abril
    [5] mayo
    [6] junio
    [7] julio
    [8] agosto
    [9] septiembre
    [10] octubre
    [11] noviembre
   *[12] diciembre
}
date-day = { $day } de { date-month }
date-day-of-year = { date-day } de { $year }
date-month-of-year = { date-month } de { $year }

## Por qué hay que repetir el ensayo de un dosificador

trigger-name-never_calibrated = Nunca calibrado
trigger-name-new_season = Nueva campaña
trigger-name-crop_changed = Cambio de cultivo
trigger-name-lot_changed = Cambio de lote
trigger-name-seed_weight_changed = Cambio del peso de la semilla
trigger-name-roller_changed = Cambio de rodillo
trigger-name-drive_ratio_changed = Cambio de relación de transmisión
trigger-name-gate_changed = Cambio de apertura de la compuerta
trigger-name-configuration_changed = Cambio de configuración
trigger-name-component_replaced = Pieza cambiada
trigger-name-calibration_in_doubt = Factor en duda
trigger-name-roller_speed_off = Velocidad del rodillo alejada
trigger-name-drift = Deriva del consumo de semilla
trigger-name-interval = Plazo vencido
trigger-name-scale_unchecked = Balanza sin verificar

# Quién anotó el registro, para las frases siguientes, que además dicen qué hacer.
trigger-by = { $did ->
    [caught] , ensayado por { $who }
    [checked] , según la verificación de { $who }
    [emptied] , vaciado anotado por { $who }
    [filled] , carga anotada por { $who }
    [fitted] , montado por { $who }
    [logged] , anotado por { $who }
    [set] , puesto por { $who }
    [sown] , siembra anotada por { $who }
    [tested] , según el análisis anotado por { $who }
   *[unknown] {""}
}
trigger-again = Repita el ensayo antes de sembrar.

trigger-never-calibrated = Todavía no se aceptó ningún ensayo de este dosificador; la sembradora se puso en servicio el
    { $day }. Haga un ensayo antes de sembrar.
trigger-new-season = { $caught ->
    [known] El { $day } empezó una nueva campaña: { $season }; el factor es de un ensayo anterior, del { $caught_on }.
        { trigger-again }
   *[unknown] El { $day } empezó una nueva campaña: { $season }; el factor es de un ensayo anterior. { trigger-again }
}
trigger-crop-changed = El cultivo cambió el { $day }: { $crop } ({ $lot }){ trigger-by }; el ensayo se hizo con { $before ->
        [known] { $crop_before } ({ $lot_before })
       *[unknown] otro cultivo
    }. { trigger-again }
trigger-lot-changed = El lote cambió el { $day }: { $lot }{ trigger-by }; el ensayo se hizo con { $lot_before }.
    { trigger-again }
trigger-lot = lote { $number }
trigger-lot-unknown = otro lote
trigger-seed-weight-changed = El peso de la semilla ({ $lot }) cambió el { $day }{ trigger-by }: { $weights }; las tolerancias
    admiten { $limit } %. { trigger-again }
trigger-bulk-density = peso hectolítrico { $now }, en el ensayo { $before }
trigger-thousand-seed-weight = peso de mil semillas { $now } g, en el ensayo { $before } g
trigger-configuration-changed = La configuración cambió el { $day }{ trigger-by }: { $what }. { trigger-again }
trigger-working-width = ancho de labor { $now }, en el ensayo { $before }
trigger-row-spacing = distancia entre surcos { $now }, en el ensayo { $before }
trigger-runs-in-use = bajadas en uso { $now }, en el ensayo { $before }
trigger-roller-changed = El rodillo cambió el { $day }: { $roller }{ trigger-by }; el ensayo se hizo con { $before }.
    { trigger-again }
trigger-roller-unknown = un rodillo desconocido
trigger-drive-ratio-changed = La relación de transmisión cambió el { $day }: { $ratio }{ trigger-by }; el ensayo se hizo con
    { $before }. { trigger-again }
trigger-gate-changed = La apertura de la compuerta cambió el { $day }: { $gate }{ trigger-by }; el ensayo se hizo con
    { $before }. { trigger-again }
trigger-gate = compuerta { $opening }
trigger-gate-none = sin compuerta
trigger-part-replaced = { $part ->
        [hydraulic_motor] Motor hidráulico
        [electric_motor] Motor eléctrico
        [control_valve] Válvula de control
        [speed_sensor] Sensor de velocidad
        [meter_housing] Carcasa del dosificador
        [seal] Junta
        [drive_train] Transmisión
        [fan] Ventilador
        [controller] Controlador
       *[other] Una pieza
    }: cambio o reparación el { $day }{ trigger-by }, después del ensayo.
trigger-more-services = { $count ->
    [1] Hubo una reparación más.
    [one] Hubo { $count } reparación más.
   *[other] Hubo { $count } reparaciones más.
}
trigger-doubt-rejected = Un ensayo posterior sobre la misma base, del { $day }{ trigger-by }, fue rechazado. { trigger-again }
trigger-doubt-held = Un ensayo posterior sobre la misma base, del { $day }{ trigger-by }, no pasó y espera a que la oficina
    decida. Si no lo hace, repita el ensayo antes de sembrar.
trigger-roller-speed-off = La velocidad del rodillo se aleja desde la labor del { $day }: la última labor necesitó { $needed }
    rpm, el ensayo se hizo a { $caught } rpm y las tolerancias admiten { $limit } %. Compruebe con un ensayo a la velocidad a
    la que siembra.
trigger-drift = { $jobs ->
    [one] El consumo de semilla se desvía desde el { $day }: suavizado sobre una labor queda un { $off } % { $side ->
            [below] por debajo
           *[above] por encima
        } de lo previsto, más allá del límite de { $limit } %. Compruebe con un ensayo.
   *[other] El consumo de semilla se desvía desde el { $day }: suavizado sobre { $jobs } labores queda un { $off } % { $side ->
            [below] por debajo
           *[above] por encima
        } de lo previsto, más allá del límite de { $limit } %. Compruebe con un ensayo.
}
trigger-interval = Desde el { $day } toca comprobar el factor: { $what }. Compruebe con un ensayo.
trigger-interval-area = { $sown } sembradas, las tolerancias admiten { $limit }
trigger-interval-days = { $days ->
    [one] hace { $days } día del ensayo, las tolerancias admiten { $limit }
   *[other] hace { $days } días del ensayo, las tolerancias admiten { $limit }
}
trigger-scale-not-named = { $caught ->
    [known] No se indicó la balanza del ensayo del { $caught_on }. Indique una verificada en el próximo ensayo.
   *[unknown] No se indicó la balanza del ensayo. Indique una verificada en el próximo ensayo.
}
trigger-scale-without-check = { $caught ->
    [known] La balanza { $scale } no superó ninguna verificación en los { $days } días anteriores al ensayo del { $caught_on }.
        Verifíquela con una pesa patrón y repita el ensayo.
   *[unknown] La balanza { $scale } no superó ninguna verificación en los { $days } días anteriores al ensayo. Verifíquela con
        una pesa patrón y repita el ensayo.
}
trigger-scale-failed = La balanza { $scale } no superó su verificación el { $day }{ trigger-by }: marcó { $reading } para
    { $reference }. Repárela o tome otra y repita el ensayo.

## El marco de todas las páginas

nav-readiness = Estado de siembra
nav-seeders = Sembradoras
nav-lots = Lotes
nav-outbox = Bandeja de salida
nav-keeping = Fichas
nav-people = Personas
nav-audit = Registro de cambios
page-skip = Ir al contenido
nav-main = Principal
menu = Menú
page-next-act = Próximo paso
send-now = Enviar ahora
sign-in = Ingresar
sign-out = Salir
theme = Página
theme-light = Clara
theme-dark = Oscura
theme-device = Como el dispositivo

# Antes de lo que está mal, para quien escucha la página; y al comienzo de su título.
error-before = Error:
problem-back = Volver al estado de siembra
problem-sign-in = Sin ingresar
problem-sign-in-detail = Ingrese, o envíe una clave de acceso que siga vigente.
problem-role = No corresponde a su rol
problem-role-detail = Su rol en esta organización no lo permite. Consulte a la oficina.
problem-cross-site = Enviado desde otro sitio
problem-cross-site-detail = Esto llegó desde otro sitio web, de modo que no se hizo nada. Use la página del propio Sowmark.
problem-not-there = No está aquí
problem-method = Así no se hace
problem-method-detail = Esta dirección no admite ese método.
problem-conflict = Ya ocupado
problem-unreadable = No se puede leer
problem-too-large = Demasiado grande
problem-too-large-detail = Aquí se admiten { $most } KiB como máximo. Envíe menos de una vez.
problem-media-type = Otro tipo de contenido
problem-media-type-detail = Aquí se admite { $wanted }.
problem-faults = Se entendió, pero algo está mal
problem-faults-detail = Hay { $count } cosas mal; cada una se indica abajo. No se guardó nada.
problem-too-many = Demasiados a la vez
problem-too-many-detail = Espere { $seconds } segundos y pruebe otra vez.
problem-unavailable = No se llega a los registros
problem-unavailable-detail = La base de datos no responde. No se guardó nada; pruebe otra vez en un momento.
problem-broken = Algo falló aquí
problem-broken-detail = No se guardó nada. El registro del servidor dice más.

# En la etiqueta para la puerta de una máquina; tras la última va la dirección.
door-label-serial-number = Número de serie
door-label-opens = Abra la página de esta máquina
door-label-or-type = o escriba

## Formularios y lo que falla en ellos

field-optional = opcional
field-unit = Unidad de: { $label }
form-not-saved = Aún sin guardar
form-to-mend = Todo lo que escribió sigue aquí. Por corregir:
form-failed = Eso no resultó
choose = Elegir
correction = Corrección
correction-of-the-named = Reemplaza el registro que se indicó al anotarlo
correction-of-nothing = No reemplaza nada

fault-missing = Falta esto.
fault-wrong-kind = Esto es { $given ->
        [flag] verdadero o falso
        [list] una lista
        [null] nulo
        [number] un número
        [text] un texto
       *[object] un objeto
    }; se pide { $wanted ->
        [entries] una lista de entradas
        [flag] verdadero o falso
        [list] una lista
        [number] un número, como texto o como número
        [number-or-flag] un número, verdadero o falso
        [ratio] una relación como «5:2»
        [text] un texto
       *[object] un objeto
    }.
fault-no-quantity = Esto es { $given ->
        [flag] verdadero o falso
        [list] una lista
        [null] nulo
        [number] un número
        [text] un texto
       *[object] un objeto
    }; se pide un valor de { $dimension }, como { $example }.
fault-field-unknown = Sowmark no conoce este campo. Aquí se conocen: { $known }.
fault-word-unknown = Aquí no se conoce «{ $given }». Use uno de: { $known }.
fault-list-too-long = Hay { $count } entradas. Envíe { $most } como máximo.
fault-batch-too-long = Hay { $count } entradas. Envíe { $most } como máximo de una vez; no se guardó nada.
fault-id-of-nothing = Este id no representa nada. Cree un UUIDv7.
fault-no-id = «{ $given }» no es un UUID.
fault-empty = Está vacío.
fault-not-one-line = Contiene un salto de línea o un carácter de control. Escríbalo en una línea.
fault-control-character = Contiene un carácter de control. Quítelo.
fault-too-long = Tiene { $length } caracteres. Use { $most } como máximo.
fault-ahead = Esto está a más de un día en el futuro. Anote lo que ya ocurrió: mire el día, el mes y el año.
fault-year = El año { $year } está fuera de alcance. Use de { $first } a { $last }.
fault-no-moment = «{ $given }» no es un momento. Escriba fecha, hora y diferencia horaria como 2027-04-06T09:40:00+02:00.
fault-no-date = «{ $given }» no es una fecha. Escríbala como 2027-04-06.
fault-no-month = «{ $given }» no es un mes. Escriba año y mes, como 2027-03.
fault-not-whole = { $given } no es un número entero.
fault-out-of-range = { $given } está fuera de lo admitido. Use de { $least } a { $most }.
fault-not-above-zero = { $given } está fuera de lo admitido. Use más de 0 y { $most } como máximo.
fault-no-share = { $given } no es parte de un todo. Use de 0 a 100 por ciento.
fault-quantity-negative = { $given } es menor que cero, y un valor de { $dimension } no puede serlo.
fault-quantity-nothing = { $given } no es nada. Indique un valor de { $dimension } mayor que cero.
fault-quantity-too-small = { $given } es menos de lo que aquí puede ser un valor de { $dimension }. Mire el signo decimal y la
    unidad.
fault-quantity-too-large = { $given } es más de lo que aquí puede ser un valor de { $dimension }. Mire el signo decimal y la
    unidad.
fault-no-zone = «{ $given }» no es un huso horario. Use un nombre IANA, como Europe/Madrid o America/Bogota.
fault-no-email = «{ $given }» no es una dirección de correo. Escríbala como ana@example.org.
fault-broke-off = El envío se interrumpió.
fault-not-utf-8 = Esto no es UTF-8.
fault-not-utf-8-at = Esto no es UTF-8: el byte { $at } no comienza ningún carácter.
fault-not-there = { $what ->
        [account] Esa cuenta
        [calibration] Esa calibración
        [check] Esa comprobación
        [client] Ese cliente
        [configuration] Esa configuración
        [crew] Ese equipo
        [emptying] Ese vaciado
        [feed-address] Esa dirección secreta
        [field] Ese campo
        [file] Ese archivo
        [fill] Esa carga
        [form-for-that-kind] Un formulario para ese tipo
        [job] Esa labor
        [lay-up] Ese cambio de uso
        [link] Ese enlace (ya se usó o es demasiado viejo; pida otro)
        [lot] Ese lote
        [lot-test] Ese análisis de lote
        [member] Ese miembro
        [metering-unit] Ese dosificador
        [metering-unit-on-this-seeder] Ese dosificador de esta sembradora
        [movement] Ese movimiento
        [organization] Esa organización
        [page] Esa página
        [record] Ese registro
        [refused-entry] Esa entrada rechazada
        [roller] Ese rodillo dosificador
        [scale] Esa balanza
        [scale-check] Esa verificación de balanza
        [season] Esa campaña
        [seed-lot] Ese lote de semilla
        [seeder] Esa sembradora
        [service] Esa reparación
        [session] Esa sesión
        [setup] Ese montaje
        [token] Esa clave de acceso
        [void] Esa anulación
        [signature] Esa firma
        [waiver] Esa excepción
       *[thing] Eso
    } no existe aquí.
fault-no-account = Aquí no existe ninguna cuenta de «{ $address }».
fault-nothing-to-correct = Aquí no hay ningún registro vigente de este tipo que corregir.

# El tipo de una entrada, dentro de una frase y solo.
kind-a = { $kind ->
        [organization] una organización
        [account] una cuenta
        [membership] una pertenencia
        [session] una sesión
        [token] una clave de acceso
        [feed_address] una dirección secreta
        [client] un cliente
        [crew] un equipo
        [seeder] una sembradora
        [metering_unit] un dosificador
        [roller] un rodillo dosificador
        [lot] un lote
        [season] una campaña
        [scale] una balanza
        [field] un campo
        [configuration] una configuración
        [setup] un montaje
        [service] una reparación
        [lay_up] un cambio de uso
        [fill] una carga
        [emptying] un vaciado
        [job] una labor
        [lot_test] un análisis de lote
        [movement] un movimiento
        [scale_check] una verificación de balanza
        [calibration] una calibración
        [decision] una decisión
        [signature] una firma
        [waiver] una excepción
        [policy] unas tolerancias
        [task_file] un archivo de datos de tareas
        [void] una anulación
       *[entry] una entrada
    }
kind-name = { $kind ->
        [organization] organización
        [account] cuenta
        [membership] pertenencia
        [session] sesión
        [token] clave de acceso
        [feed_address] dirección secreta
        [client] cliente
        [crew] equipo
        [seeder] sembradora
        [metering_unit] dosificador
        [roller] rodillo dosificador
        [lot] lote
        [season] campaña
        [scale] balanza
        [field] campo
        [configuration] configuración
        [setup] montaje
        [service] reparación
        [lay_up] cambio de uso
        [fill] carga
        [emptying] vaciado
        [job] labor
        [lot_test] análisis de lote
        [movement] movimiento
        [scale_check] verificación de balanza
        [calibration] calibración
        [decision] decisión
        [signature] firma
        [waiver] excepción
        [policy] tolerancias
        [task_file] archivo de datos de tareas
        [void] anulación
       *[entry] entrada
    }
conflict-id-stands = El id { $id } ya corresponde a { kind-a } con otro contenido. No se cambió nada; lo enviado queda guardado.
    Envíelo con otro id si es otro suceso.
conflict-id-taken = El id { $id } está ocupado. Dé otro id a la entrada ({ kind-name }).

## Ingreso, personas y cuentas

email-address = Dirección de correo
password = Contraseña
password-new = Contraseña nueva
password-in-use = Contraseña actual
password-hint = Al menos { $least } caracteres. Unas pocas palabras propias son fáciles de recordar y difíciles de adivinar.
password-is-set = La contraseña quedó puesta. Ingrese con ella.
password-set = Poner la contraseña
password-set-title = Ponga su contraseña
password-set-intro = El enlace sirve una vez. Después ingrese con su dirección de correo y esta contraseña.
password-change = Cambiar la contraseña
password-change-title = Cambie su contraseña
password-change-intro = Aquí la sesión sigue abierta; en los demás lugares habrá que ingresar de nuevo.
password-too-short = Tiene { $length } caracteres. Use al menos { $least }; unas pocas palabras se recuerdan mejor.
password-too-long = Tiene { $length } caracteres. Use { $most } como máximo.
password-guessed = Es de las primeras que cualquiera probaría. Use unas pocas palabras propias.
password-repeats-itself = Es un solo carácter repetido. Use unas pocas palabras propias.
password-does-not-fit = No es la contraseña actual. Revise si hay un error al teclear.
password-of-others-too = Esta persona es miembro también de otra organización, así que esta oficina no puede poner la
    contraseña. La cambia ella misma con su sesión abierta, o quien atiende el servidor crea un enlace: { $command }.
sign-in-does-not-fit = Esta dirección y esta contraseña no coinciden. Revise si hay un error al teclear, o pida a la oficina
    otro enlace.

set-up-title = Configure Sowmark
set-up-intro = Nadie tiene cuenta aquí todavía. Esto crea su organización y su propia cuenta de oficina, y abre su sesión. El
    enlace sirve una vez.
set-up-submit = Configurar e ingresar
set-up-organization = Organización
set-up-organization-hint = La finca o el contratista a quien pertenecen estos registros.
set-up-zone = Huso horario
set-up-zone-none = Elija uno
set-up-zone-hint = Sus días y campañas empiezan a la medianoche de allí.
set-up-units = Unidades en que lee su gente
set-up-units-metric = métricas (g, kg, m, ha)
set-up-units-us = de EE. UU. (oz, lb, ft, ac)
set-up-name = Su nombre
set-up-email = Su dirección de correo
set-up-email-hint = Con ella ingresa. No se le envía nada que usted no pida.

reading = Cómo lee usted
reading-units = Unidades
reading-units-organization = Como { $organization } ({ $units })
reading-units-metric = métricas: kg, ha, km/h
reading-units-us = de EE. UU.: lb, ac, mph
reading-decimal = Signo decimal
reading-decimal-point = Un punto: 12.5
reading-decimal-comma = Una coma: 12,5
reading-decimal-hint = Cómo se le muestran los números. Al escribir se admiten los dos.
reading-language = Idioma
reading-language-browser = El que pida su navegador
reading-submit = Mostrarlo así

organizations = Organizaciones
organization-here = Aquí está usted ahora.
organization-go = Ir a { $name }
sessions = Dónde tiene abierta su sesión
sessions-none = En ningún lugar.
sessions-end-others = Cerrar las demás sesiones
tokens = Claves de acceso para programas
tokens-note = Un programa que lee o anota en su nombre envía una clave con cada petición.
tokens-none = Todavía no hay ninguna.
token-label = Para qué es
token-label-hint = Para reconocerla cuando haya que anularla.
token-make = Crear una clave
token-end = Anular la clave
token-new-title = Su nueva clave de acceso
token-of-title = Una clave de acceso para { $name }
token-once = Esta es la clave para «{ $label }». Se muestra solo esta vez: cópiela ahora. Quien la tenga puede hacer aquí lo
    mismo que su dueño, durante un año o hasta que se anule.
link-title = Un enlace para { $name }
link-once = Dé este enlace solo a esa persona: quien lo abra primero pone la contraseña. Sirve una vez, dentro de una semana,
    y se muestra solo esta vez.
once-done = Listo: ya lo tengo
opened-this-one = esta
opened-since = Desde el { $since }. Última vez: { $used }.
opened-never = nunca
device = { $browser } en { $system }
device-system = Un navegador en { $system }
device-unknown = Dispositivo desconocido

role = Rol
role-name = { $role ->
    [agronomist] agronomía
    [office] oficina
   *[crew] equipo
}
role-does = { $role ->
    [agronomist] agronomía: lee, analiza lotes, firma auditorías
    [office] oficina: lleva todo
   *[crew] equipo: ve las sembradoras de sus equipos y anota para ellas
}
keep-the-change = Guardar el cambio
back-without-a-change = Volver sin cambios
members = Miembros
member-name = Nombre
member-email-hint = Con ella ingresa. No se le envía nada que esa persona no pida.
member-add = Agregar un miembro
member-add-submit = Agregar el miembro
member-add-intro = Recibirá un enlace para entregar, con el que esa persona pone su propia contraseña. Quien ya tiene cuenta la
    conserva, con su nombre y su contraseña.
member-in-no-crew = en ningún equipo, así que no ve ninguna sembradora
member-ended = ya no es miembro
member-ended-note = Ya no es miembro. Para darle entrada de nuevo, agregue un miembro con la misma dirección de correo.
member-role-note = Con otro rol tendrá que ingresar de nuevo.
member-sessions = Sesiones abiertas
member-sessions-note = Un teléfono perdido queda sin acceso en cuanto se cierra aquí su sesión.
member-sessions-none = Por ahora, ninguna.
member-sign-out = Cerrar la sesión
member-tokens-none = Ninguna.
member-password-note = Quien la perdió recibe otro enlace. La anterior sirve hasta que se usa el enlace.
member-new-link = Crear otro enlace
member-end = Dar de baja al miembro
member-end-note = Termina de inmediato sus sesiones, sus claves y su lugar en los equipos. Lo que anotó queda, con su nombre.
clients-only = Solo estos clientes
clients-hint = Solo para agronomía: marque clientes para que no vea nada más que lo que les concierne. De las máquinas ve los
    datos, nunca las notas ni los motivos que escribe la oficina. Sin ninguno marcado no hay límite.
clients-meanwhile = Mientras tanto otra persona cambió para qué clientes. Abajo está lo que marcó; guarde otra vez para dejarlo en lugar de lo suyo.
clients-of-an-agronomist = Solo el rol de agronomía puede limitarse a clientes. Quítelos, o elija el rol de agronomía.
office-needs-one = Es el único miembro de oficina. Dé antes ese rol a otra persona.

crews = Equipos
crews-none = Todavía no hay ningún equipo. Un equipo dice quiénes ven qué sembradoras y anotan para ellas; quien no está en
    ninguno no ve ninguna sembradora.
crew-add = Agregar un equipo
crew-add-submit = Agregar el equipo
crew-intro = Los miembros de un equipo ven las sembradoras marcadas aquí, anotan para ellas y no ven otras.
crew-name = Nombre
crew-name-hint = Como lo llama su gente, por ejemplo «equipo del galpón».
crew-of-nobody = Nadie
crew-without-seeder = todavía ninguna sembradora
crew-members-none = Todavía no hay a quién marcar: agregue antes un miembro.
crew-seeders-none = Todavía no hay ninguna sembradora: agregue una en Sembradoras y vuelva aquí.
crew-member-twice = Este miembro está dos veces. Indique a cada uno una vez.
crew-seeder-twice = Esta sembradora está dos veces. Indique cada una una vez.

## Lo pendiente, llevado a cada persona: calendario y avisos

notices-title = Lo pendiente, a su alcance
notices-intro = Todo lo que en sus sembradoras espera un ensayo o una comprobación, y lo próximo que trae el calendario. Téngalo donde
    usted mira de todos modos: en su calendario o en un lector de noticias.
notices-due = Pendiente ahora
notices-due-none = No hay nada pendiente.
notices-coming = Lo que vendrá
matter-unit = { $seeder }, { $unit }: { $reason }
matter-coming = Vence el { $day }: { $says }
matter-coming-interval = { $days ->
    [one] Vence el { $day }: { $days } día desde el ensayo. Compruebe con un ensayo ese día o antes.
   *[other] Vence el { $day }: { $days } días desde el ensayo. Compruebe con un ensayo ese día o antes.
}
matter-coming-season = Vence el { $day }: empieza la campaña { $season }. Repita el ensayo antes de sembrar en ella.
matter-coming-passed = Vuelve a vencer el { $day }, cuando termina la excepción. { $says }
matter-scale = { $scale }: verificar con una pesa patrón
matter-scale-why = { $how ->
    [never] Nadie verificó la balanza «{ $scale }» con una pesa patrón, y se pesaron recogidas en ella. Pese en ella una pesa patrón
        y anote la lectura.
    [failed] La balanza «{ $scale }» no superó su verificación del { $checked }. Hágala ajustar; después pese en ella una pesa patrón
        y anote la lectura.
    [over] La balanza «{ $scale }» se verificó por última vez el { $checked }, hace más tiempo del que admiten sus tolerancias. Pese
        en ella una pesa patrón y anote la lectura.
   *[other] Vence el { $day }: { $days } días desde que se verificó la balanza «{ $scale }», el { $checked }. Pese en ella una pesa
        patrón y anote la lectura antes del primer ensayo posterior a ese día.
}
feed = Calendario y noticias
feed-name = Pendiente en { $organization }
feed-note = Su calendario y su lector de noticias pueden buscar lo pendiente en una dirección propia de usted. Es secreta: quien la
    tenga lee lo que usted puede ver, sin ingresar, hasta que usted la anule. También termina cuando usted deja de ser miembro.
feed-since = Usted tiene una dirección desde el { $since }. Última lectura: { $read }.
feed-of-member = Desde el { $since } el calendario o el lector de noticias de esta persona puede buscar lo pendiente en una
    dirección secreta. Última lectura: { $read }.
feed-make = Crear mi dirección
feed-renew = Crear otra dirección
feed-renew-note = La anterior deja de servir enseguida, dondequiera que se use.
feed-end = Anular la dirección
feed-once-title = Su dirección secreta
feed-once = Se muestra solo esta vez: copie ahora lo que necesite. No se la dé a nadie; quien la tenga lee lo que usted puede ver.
feed-once-calendar = Para un calendario
feed-once-calendar-note = En su calendario, agregue un calendario por su dirección y pegue esta.
feed-once-news = Para un lector de noticias
feed-once-news-note = En su lector de noticias, agregue una fuente y pegue esta dirección.
feed-once-clients = Solo de un cliente
feed-once-clients-note = Agregue uno de estos al final de cualquiera de las dos direcciones, y dirá solo lo que atañe a la semilla y los campos de ese cliente.

digest = Por correo
digest-note = Una carta con lo que venció desde la anterior, y ninguna cuando no hay nada nuevo. Nadie la recibe si no la eligió
    aquí, y cada carta trae cómo dejar de recibirlas con un clic.
digest-off = Este servidor no envía correo. Quien lo administra puede activarlo.
digest-every = Una carta
digest-every-none = Nunca
digest-every-daily = Cada día
digest-every-weekly = Cada lunes
digest-hour = A las
digest-hour-hint = Según la hora de su organización.
digest-submit = Guardar esta elección
digest-next = Su próxima carta sale el { $when }. Por ahora dirá:
digest-next-none = Su próxima carta sale el { $when }, si hasta entonces hay algo nuevo.
digest-recipients = Quién recibe cartas
digest-gets = { $every ->
    [daily] Cada día a las { $hour }.
   *[weekly] Cada lunes a las { $hour }.
}
digest-last = { $state ->
    [sent] La última carta salió el { $when }.
    [nothing] El { $when } no había nada nuevo, y no salió ninguna carta.
    [waiting] Una carta está en camino.
    [failed] Se desistió de la última carta el { $when }: { $problem }. La próxima dirá lo que aquella habría dicho.
   *[none] Todavía no correspondió ninguna carta.
}
digest-retried = { $attempts ->
    [one] No se pudo enviar la carta: { $problem }. Se intentará de nuevo el { $again }.
   *[other] No se pudo enviar la carta tras { $attempts } intentos: { $problem }. Se intentará de nuevo el { $again }.
}
digest-subject = { $count ->
    [one] Hay un asunto pendiente nuevo en { $organization }
   *[other] Hay { $count } asuntos pendientes nuevos en { $organization }
}
digest-letter-intro = { $count ->
    [one] Desde su última carta quedó pendiente en { $organization }:
   *[other] Desde su última carta quedaron pendientes en { $organization } estos { $count } asuntos:
}
digest-letter-rest = { $count ->
    [one] Un asunto del que ya se le avisó sigue pendiente.
   *[other] { $count } asuntos de los que ya se le avisó siguen pendientes.
}
digest-letter-board = Ver todo lo pendiente
digest-letter-why = Recibe esta carta porque la eligió en Sowmark.
digest-letter-stop = Dejar de recibirlas
digest-stop-title = ¿Dejar de recibir estas cartas?
digest-stop-intro = No recibirá más cartas sobre lo pendiente. Puede elegirlas de nuevo en Sowmark cuando quiera.
digest-stop = No recibir más cartas
digest-stopped-title = No recibirá más cartas
digest-stopped = No recibirá más cartas sobre lo pendiente. Puede elegirlas de nuevo en Sowmark cuando quiera.

## El teléfono: bandeja de salida, páginas guardadas, entradas rechazadas

refused-title = No se pudo incorporar
refused-none = Aquí no espera nada.
refused-none-hint = Lo que se envió desde un teléfono y no se pudo incorporar estaría aquí, con el motivo, hasta que alguien lo corrija o
    lo descarte.
refused-intro = Esto llegó de teléfonos y no se pudo incorporar tal como se envió. Nada de ello se pierde, y nada se calcula con
    ello hasta que se corrija.
refused-sent = Enviado por { $who } el { $last }.
refused-sent-again = Enviado por { $who } el { $last }; por primera vez, el { $first }.
refused-mended = Corregido el { $when } por { $who }.
refused-dropped = Descartado el { $when } por { $who }.
refused-why = Por qué no se incorporó
refused-what = Qué se envió
refused-mend = Corregir
refused-drop = Descartar
refused-drop-reason = Por qué no hace falta
refused-more = Más
refused-waiting-only = Solo lo que espera
refused-ended-too = También lo corregido o descartado
refused-already-mended = Esto ya se corrigió, así que no hay nada que descartar.
refused-mending-note = { $who } envió esto el { $when } y no se pudo incorporar. Revíselo, corrija lo marcado y guárdelo.
refused-machine-title = ¿A qué corresponde?
refused-machine-none = Usted no ve nada a lo que pueda corresponder.
refused-machine-none-hint = Pida a la oficina que lo corrija.
refused-machine-intro = Aquello para lo que se envió no está, o usted no lo ve. Elija a qué correspondía; el formulario se abre
    con lo enviado.

sent-what = { $kind ->
    [calibration] Recogida
    [emptying] Tolva vaciada
    [fill] Tolva cargada
    [job] Labor terminada
    [lot_test] Lote analizado
    [scale_check] Balanza verificada
    [service] Pieza cambiada
    [setup] Cambio de rodillo, relación o compuerta
   *[unreadable] Algo que no se puede leer
}
sent-what-unknown = Algo de un tipo desconocido, «{ $kind }»
sent-as-it-is = Lo enviado
sent-replaces = Reemplaza otro registro.
sent-yes = sí
sent-no = no
sent-one-of = { $list ->
    [catches] Recogida { $number }
    [repeats] Repetición { $number }
   *[others] { $name } { $number }
}
# Un campo de lo enviado, y una palabra que alguien eligió en él.
sent-field = { $field ->
    [affects_metering] Afecta al dosificador
    [area] Superficie
    [bulk_density] Peso hectolítrico
    [catches] Recogidas
    [certificate] Certificado
    [circumference] Circunferencia
    [component] Pieza
    [corrects] Corrige
    [distance] Distancia
    [drive_ratio] Relación de transmisión
    [ended_at] Fin
    [field] Campo
    [field_id] Campo
    [gate] Compuerta
    [germination_percent] Poder germinativo
    [gross] Peso bruto
    [id] Id
    [kind] Tipo
    [label] Nombre
    [laid_up] Fuera de uso
    [lot_id] Lote
    [mass] Masa
    [method] Método
    [metering_unit_id] Dosificador
    [moisture_percent] Humedad
    [note] Nota
    [occurred_at] Cuándo
    [parent_id] Máquina
    [planned] Previsto
    [pulses] Pulsos
    [pulses_per_rev] Pulsos por vuelta
    [purity_percent] Pureza
    [rate] Dosis
    [reading] Lectura
    [record] Registro
    [reference] Pesa patrón
    [reference_identity] Marca de la pesa
    [repeats] Repeticiones
    [revolutions] Vueltas
    [roller_id] Rodillo
    [roller_speed_rpm] Velocidad del rodillo, rpm
    [row_spacing] Distancia entre surcos
    [runs] Bajadas
    [scale_id] Balanza
    [seed_used] Semilla usada
    [seed_used_basis] Cómo se conoce la semilla usada
    [set_aside] Apartada
    [slip_percent] Patinaje
    [speed] Velocidad
    [tare] Tara
    [target_rate] Dosis deseada
    [thousand_seed_weight] Peso de mil semillas
    [to_empty] Tolva vacía después
    [turns] Giros
    [working_width] Ancho de labor
   *[others] { $name }
}
sent-word = { $word ->
    [bags] bolsas
    [control_valve] válvula de control
    [controller] controlador
    [drive_train] transmisión
    [driven] en marcha
    [electric_motor] motor eléctrico
    [fan] ventilador
    [hand_turned] girado a mano
    [hydraulic_motor] motor hidráulico
    [machine_total] total de la máquina
    [meter_housing] carcasa del dosificador
    [other_part] otra pieza
    [seal] junta
    [speed_sensor] sensor de velocidad
    [stationary] parado
    [weighed] pesado
   *[others] { $name }
}

outbox-nothing-kept-title = Aquí no hay señal
outbox-not-kept = La página que pidió no está guardada en este teléfono. Lo que hay guardado está abajo; todo lo que anote se
    guarda también, y se envía cuando haya señal.
outbox-intro = Todo lo que anota se guarda primero en este teléfono y se envía en cuanto hay señal. Nada sale de esta lista antes
    de que el servidor lo tenga.
outbox-no-script = Sin JavaScript no se guarda nada en este teléfono: lo que anota se envía al momento, o no se envía.
outbox-waiting = En espera
outbox-none = No espera nada.
outbox-copy = Guardar una copia
outbox-take-in = Recuperar una copia
outbox-refused = Lo que el servidor apartó, de este teléfono y de otros, hasta que alguien lo corrija o lo descarte
outbox-mend = Abrir y corregir
outbox-drop = Descartar
outbox-sent = Enviado desde aquí
outbox-without-signal = Sin señal
outbox-refresh = Traerlas de nuevo ahora
outbox-home-screen = Ponga Sowmark en la pantalla de inicio desde el menú del navegador: así se abre como un programa, y es menos
    probable que el teléfono borre lo guardado. Trabaje en uno de los dos, el navegador o la pantalla de inicio: algunos
    teléfonos guardan sus entradas por separado.

# Lo dicen los guiones de la página, que eligen entre uno y varios.
phone-waiting-one = { $count } entrada espera en este teléfono.
phone-waiting-other = { $count } entradas esperan en este teléfono.
phone-refused-one = { $count } entrada no se pudo incorporar: vea la bandeja de salida.
phone-refused-other = { $count } entradas no se pudieron incorporar: vea la bandeja de salida.
phone-ended-offline = Sin señal. Se envía en cuanto la haya.
phone-ended-sign-in = Ingrese para enviar.
phone-ended-other = Aquí está abierta la sesión de otra persona. Las entradas se envían cuando ingrese quien las hizo.
phone-ended-later = El servidor está ocupado. Se intenta de nuevo sin más.
phone-waits-long = Algo espera desde hace más de un día: vaya adonde haya señal, o guarde una copia desde la bandeja de salida.
phone-storage-nearly-full = La memoria de este teléfono está casi llena: libere espacio, o quizá no se guarden las entradas.
phone-sign-out-waiting-one = { $count } entrada espera en este teléfono. Se queda aquí y se envía cuando usted ingrese de nuevo.
phone-sign-out-waiting-other = { $count } entradas esperan en este teléfono. Se quedan aquí y se envían cuando usted ingrese de
    nuevo.
phone-sign-out-all-the-same = Salir de todos modos
phone-negative = { $given } es menor que cero, y esto no puede serlo.
phone-no-number = No es un número. Escríbalo como 2.11 o 2,11.
phone-missing-revolutions = las vueltas de la repetición { $repeat }
phone-missing-revolutions-unread = unas vueltas de la repetición { $repeat } que se puedan leer
phone-missing-per = cuánto corresponde a una vuelta, en cifras
phone-missing-runs = el número de bajadas de { $run }, repetición { $repeat }
phone-missing-tare-unread = una tara de { $run }, repetición { $repeat }, que se pueda leer
phone-missing-gross-unread = un peso bruto de { $run }, repetición { $repeat }, que se pueda leer
phone-missing-seed = un peso bruto de { $run }, repetición { $repeat }, mayor que su tara
phone-missing-within = un peso bruto de { $run }, repetición { $repeat }, que la balanza pueda pesar
phone-missing-tare = la tara de { $run }, repetición { $repeat }
phone-missing-gross = el peso bruto de { $run }, repetición { $repeat }
phone-missing-lot = el lote que hay en la tolva
phone-missing-repeat = otra repetición, para ver si coinciden
phone-missing-nothing = nada
phone-made = Hecha { $when }
phone-sent = Enviada { $when }
phone-state-waiting = Espera el envío
phone-drop-for-good = Descartar para siempre
phone-others-one = { $count } entrada de otra persona espera en este teléfono. Se envía cuando esa persona ingrese aquí.
phone-others-other = { $count } entradas de otras personas esperan en este teléfono. Se envían cuando esas personas ingresen aquí.
phone-pages-kept-one = { $count } página está guardada para cuando no haya señal.
phone-pages-kept-other = { $count } páginas están guardadas para cuando no haya señal: máquinas, lotes, balanzas y todos los
    formularios breves.
phone-no-pages-kept = Todavía no hay ninguna página guardada en este teléfono. Hacen falta una conexión por HTTPS y un minuto de
    señal.
phone-taken-in-one = { $count } entrada se recuperó de la copia.
phone-taken-in-other = { $count } entradas se recuperaron de la copia.
phone-not-taken-in = Este archivo no es copia de una bandeja de salida. No se recuperó nada.
phone-as-of = Sin señal: esta es la página de { $when }. Lo que cambió desde entonces no está en ella.
phone-draft-back = Volvió lo que había escrito: { $when }.
phone-draft-afresh = Empezar de nuevo
phone-not-kept = Sin guardar
phone-not-kept-hint = Este teléfono no pudo guardar la entrada. Todo lo que escribió sigue en esta página: déjela abierta, apunte
    las cifras y pruebe otra vez.
phone-storage-full = Sin guardar: la memoria de este teléfono está llena
phone-storage-full-hint = Todo lo que escribió sigue en esta página: déjela abierta, libere espacio en el teléfono y guarde otra
    vez.
phone-no-verdict = Sin señal
phone-no-verdict-hint = Las sumas de esta planilla se hacen aquí; el dictamen viene del servidor. Anote el ensayo: queda en este
    teléfono y se juzga en cuanto se envía.
phone-kept = Guardado en este teléfono
phone-kept-entry = { $title }: la entrada queda aquí y se envía en cuanto haya señal.
phone-kept-factor = Por simples sumas el factor hasta ahora es { $factor } por bajada. Si es de fiar, y si la máquina está
    lista, lo dice el servidor cuando tenga la entrada.
phone-kept-back = Volver a la máquina
# En la página de estado.
refused-waiting = { $count ->
    [one] Una entrada de un teléfono no se pudo incorporar.
   *[other] { $count } entradas de teléfonos no se pudieron incorporar.
}

## El registro de cambios

audit-intro = Todo lo que alguien hizo, en el orden en que el servidor lo recibió. Cada línea lleva una huella de sí misma y de
    la línea anterior: quien anote la huella más reciente puede comprobar después que nada de lo anterior se cambió. No
    demuestra que una línea fuera verdad.
audit-withheld = Sobre algo que no le corresponde ver. Su huella figura en su lugar.
audit-line = { $who }: { $did ->
        [changed] cambio
        [created] creación
        [dropped] descarte
        [feed_address_made] dirección secreta nueva
        [feed_address_ended] dirección secreta anulada
        [imported] importación
        [matched] correspondencia de nombres
        [member_ended] baja de un miembro
        [member_set] alta o cambio de un miembro
        [password_link_made] enlace de contraseña
        [refused] rechazo
        [refused_conflict] rechazo por conflicto
        [session_ended] cierre de una sesión
        [token_added] clave de acceso nueva
        [token_ended] clave de acceso anulada
        [voided] anulación
       *[other] { $action }
    }, { $named ->
        [yes] { kind-name } ({ $name })
       *[no] { kind-name } …{ $id }
    }
audit-change = Qué cambió
audit-hash = Huella
audit-older = Anteriores
audit-kind = Sobre
audit-who = De
audit-all = cualquiera
audit-show = Mostrar
audit-none = Ninguna línea es así.

## La organización entera en un archivo

whole-title = Llevarse todo
whole-link = Llevarse todos los registros en un archivo
whole-intro = Un archivo con todos los registros de la organización, también los anulados, las decisiones, las excepciones,
    las tolerancias, las entradas rechazadas y el registro de cambios. Otro servidor de Sowmark puede incorporarlo y otros
    programas pueden calcular con él: cada línea es JSON.
whole-left-out = No contiene contraseñas, sesiones, claves de acceso ni enlaces de un solo uso. Sí contiene los nombres y las
    direcciones de correo de las personas: guarde el archivo con el cuidado que eso pide.
whole-import = Quien administra el otro servidor lo incorpora con esta orden. Antes se comprueba todo, también el registro de
    cambios y el cálculo de cada calibración; se incorpora entero o no se incorpora.
whole-people = Después, cada persona recibe un enlace de un solo uso para poner allí una contraseña.
whole-download = Descargar el archivo

## Las sembradoras: dosificadores, rodillos, balanzas, campañas, etiquetas

keeping-rollers = Lo que gira debajo de la tolva. El montaje de cada dosificador indica cuál lleva.
keeping-scales = Con qué se pesa y qué marcó cada una con una pesa patrón.
keeping-seasons = Desde el primer día de una campaña se repite el ensayo de cada dosificador.
keeping-tolerances = Tolerancias
keeping-tolerances-what = Todos los límites con que se juzga un ensayo y de dónde sale el valor inicial de cada uno.
keeping-fields = Campos
keeping-fields-what = Dónde se siembra y qué superficie tiene.
keeping-clients = Clientes
keeping-clients-what = De quién son los campos y la semilla cuando se siembra para terceros.
keeping-people = Personas y equipos
keeping-people-what = Quién puede hacer qué y qué sembradoras ve cada equipo.

seeders-add = Agregar una sembradora
seeders-none = Todavía no hay sembradoras.
seeders-none-keep = Una sembradora es una máquina con sus dosificadores. Agregue la primera y anote después lo que lleva montado.
seeders-none-yours = No tiene ninguna asignada. La oficina asigna las sembradoras a los equipos en Personas.
seeders-labels = Etiquetas para las máquinas, con códigos QR
seeders-seeder = Sembradora
seeders-units = Dosificadores
seeders-laid-up = (fuera de servicio)
seeders-serial-number-none = sin anotar
seeder-name = Nombre
seeder-name-hint = Como la llama su gente.
seeder-kind = Tipo
seeder-kind-box-drill = sembradora de cajón
seeder-kind-air-drill = sembradora neumática
seeder-kind-air-cart = carro tolva neumático
seeder-serial-number = Número de serie
seeder-commissioned-on = En servicio desde
seeder-commissioned-on-hint = Desde este día valen su ancho de labor y su distancia entre surcos.
seeder-working-width = Ancho de labor
seeder-row-spacing = Distancia entre surcos
seeder-not-known = sin datos
seeder-new-intro = Un dosificador es una línea de rodillos debajo de una tolva. Nombre cada uno como lo hace su gente y deje vacías
    las filas que no necesite.
seeder-new-submit = Agregar la sembradora
seeder-unit-label = Dosificador { $number }: nombre
seeder-unit-runs = Dosificador { $number }: bajadas
seeder-unit-drive = Dosificador { $number }: accionamiento
seeder-unit-speed-least = Dosificador { $number }: velocidad mínima del rodillo, rpm
seeder-unit-speed-most = Dosificador { $number }: velocidad máxima del rodillo, rpm
seeder-about = { $kind }{ $numbered ->
        [yes] , número de serie { $serial }
       *[no] {""}
    }, en servicio desde { $day }{ $laid_up ->
        [yes] . Ahora está fuera de servicio.
       *[no] {""}
    }
seeder-numbers-now = Factores actuales
seeder-units-none-yours = Ninguno de sus dosificadores tiene ahora semilla de sus clientes, así que aquí no se muestra ningún número.
seeder-factors = { $unit }: factor y deriva
seeder-machine = La máquina
seeder-part-replaced = Cambió una pieza
seeder-width-changed = Cambió el ancho o la distancia
seeder-change-link = Nombre, número de serie, controladores
seeder-lay-up = Dejarla fuera de servicio
seeder-take-back = Ponerla otra vez en servicio
seeder-label = Código QR para la puerta de la máquina
seeder-change-title = Modificar { $seeder }
seeder-change-intro = Lo que se anotó de la máquina se conserva. La modificación queda en el registro de cambios. Indique abajo cómo
    pide el número el controlador de cada dosificador: todas las páginas lo mostrarán así.
seeder-change-submit = Guardar los cambios
seeder-units-none = Una sembradora tiene al menos un dosificador. Nombre cada línea de rodillos.
seeder-unit-label-taken = Otro dosificador ya se llama { $label }. Dé a cada uno un nombre propio.
seeder-unit-id-taken = Otro dosificador lleva aquí el mismo identificador. Genere uno para cada uno.
seeder-unit-not-its-own = No es un dosificador de esta sembradora o ya se indicó antes. Indique cada uno una sola vez.
seeder-speed-most-too-low = { $most } rpm no supera la velocidad mínima, { $least } rpm. Indique la velocidad máxima que mantiene el
    accionamiento.

unit-add = Agregar un dosificador
unit-title = { $seeder }: agregar un dosificador
unit-intro = Un dosificador es una línea de rodillos debajo de una tolva. No tiene factor hasta que se anota su montaje y se acepta un
    ensayo.
unit-submit = Agregar el dosificador
unit-label = Nombre
unit-label-hint = Como lo llama su gente; distinto del de los otros dosificadores de la máquina.
unit-runs = Bajadas
unit-runs-hint = Cuántas líneas de siembra alimenta.
unit-drive = Accionamiento
unit-speed-least = Velocidad mínima del rodillo, rpm
unit-speed-most = Velocidad máxima del rodillo, rpm
unit-speed-hint = Las velocidades del rodillo que mantiene el accionamiento, si se conocen.
unit-log-catch = Anotar un ensayo
unit-log-setup = Cambió el rodillo o la relación
unit-log-fill = Se cargó la tolva
unit-log-emptying = Se vació la tolva
unit-log-job = Labor terminada
unit-all-catches = Todos sus ensayos
unit-roller-speed = Velocidad del rodillo para una dosis
unit-rate-plan = Plan de dosis
unit-next-gate = Próxima apertura de la compuerta
drive-ground = rueda de mando
drive-electric = motor eléctrico
drive-hydraulic = motor hidráulico
drive-speeds = { $drive }, de { $least } a { $most } rpm

key-in-wanted = El controlador pide
key-in-change = Cambiarlo
key-in-not-said = nadie lo indicó; se muestra en { $form }
key-in-mass = { $unit }: el controlador pide
key-in-mass-not-said = Nadie lo indicó: se muestra en { $form }
key-in-g = gramos
key-in-kg = kilogramos
key-in-lb = libras
key-in-oz = onzas
key-in-per = { $unit }: para cuántas vueltas
key-in-per-one = una vuelta
key-in-per-hundred = 100 vueltas
key-in-per-unknown = Aquí no se admite { $count }. Use 1 o 100.
key-in-for = { $unit }: para una bajada o para todas
key-in-for-run = una bajada
key-in-for-unit = el dosificador entero, todas las bajadas en uso

setup-title = { $seeder }, { $unit }: rodillo, relación o compuerta
setup-intro = Indique lo que está montado desde este momento, también lo que no cambió. Pare el motor y espere a que nada gire antes
    de meter la mano; las instrucciones del fabricante están primero.
setup-submit = Anotar el cambio
setup-fitted = Montado
setup-none = Todavía no se anotó nada. Anote el rodillo y la relación de transmisión; sin ellos no se puede juzgar ningún ensayo.
setup-roller = Rodillo
setup-roller-since = { $roller }, desde el { $since }
setup-roller-choose = Elija el rodillo
setup-roller-none = Todavía no hay rodillos. La oficina los agrega en Fichas; después se pueden elegir aquí.
setup-ratio = Relación de transmisión
setup-ratio-hint = Vueltas del rodillo por vueltas del accionamiento, como 5:2 o 2,5.
setup-gate = Compuerta
setup-gate-none = ninguna
setup-gate-opening = Apertura de la compuerta
setup-gate-opening-hint = Como se lee en la máquina.
setup-runs = Bajadas en uso
setup-runs-of = { $used } de { $runs }
setup-runs-hint = El dosificador tiene { $runs }.
setup-runs-too-many = { $used } bajadas en uso, pero { $unit } tiene { $runs }. Indique de 1 a { $runs }.

configuration-title = { $seeder }: ancho o distancia
configuration-intro = Vale desde este momento. Después hay que repetir el ensayo de todos los dosificadores de la sembradora.
configuration-too-wide = { $width } es más ancho que cualquier sembradora. Mire el signo decimal y la unidad.
configuration-spacing-too-wide = { $spacing } entre surcos es más que el ancho de labor, { $width }. Revise las unidades.

service-title = { $seeder }: pieza cambiada o reparada
service-intro = Si pudo cambiar lo que entrega una vuelta, hay que repetir el ensayo de los dosificadores afectados.
service-submit = Anotar la pieza
service-unit = Qué dosificador
service-unit-all = Toda la sembradora
service-part = Pieza
service-affects = ¿Pudo cambiar lo que entrega una vuelta?
service-affects-yes = Sí, o no se sabe: repetir el ensayo
service-affects-no = No
component-hydraulic-motor = motor hidráulico
component-electric-motor = motor eléctrico
component-control-valve = válvula de control
component-speed-sensor = sensor de velocidad
component-meter-housing = carcasa del dosificador
component-seal = junta
component-drive-train = transmisión
component-fan = ventilador
component-controller = controlador
component-other = otra pieza

lay-up-title = { $seeder }: en servicio o fuera de servicio
lay-up-intro = Una sembradora fuera de servicio no pide nada en el tablero.
lay-up-what = Qué pasa
lay-up-laid-up = Queda fuera de servicio
lay-up-in-use = Vuelve al servicio
lay-up-submit = Anotarlo

rollers-title = Rodillos dosificadores
rollers-add = Agregar un rodillo dosificador
rollers-none = Todavía no hay rodillos.
rollers-none-why = Un rodillo, o un tipo de rodillo, es lo que gira debajo de la tolva; el montaje de cada dosificador indica cuál
    lleva.
roller-submit = Agregar el rodillo
roller-label = Nombre
roller-label-hint = Como lo llama su gente, por ejemplo «acanalado fino».
roller-kind = Tipo
roller-kind-fluted = acanalado
roller-kind-studded = de tetones
roller-kind-cell = de alvéolos
roller-kind-belt = de cinta
roller-kind-other = otro
roller-displacement = Volumen por vuelta y bajada
roller-displacement-hint = Si lo indica el fabricante. Permite a Sowmark reconocer un ensayo que no puede ser correcto.
roller-displacement-unknown = sin datos

scales-title = Balanzas
scales-add = Agregar una balanza
scales-none = Todavía no hay balanzas.
scales-none-why = Un ensayo vale lo que vale la balanza con que se pesó.
scales-none-keep = Agregue la que usa y verifíquela con una pesa patrón.
scales-none-office = La oficina agrega las balanzas.
scale-submit = Agregar la balanza
scale-name = Nombre
scale-name-hint = Como la llama su gente, por ejemplo «balanza colgante, gancho amarillo».
scale-step = División
scale-step-hint = El paso con que cambia el visor. De él depende cuánta semilla hay que recoger.
scale-step-zero = La división de una balanza es mayor que cero. Léala en el visor o en la placa.
scale-capacity = Capacidad
scale-capacity-hint = Lo máximo que pesa.
scale-capacity-too-small = { $capacity } no es más que su división, { $step }. Revise las unidades.
scale-never-checked = Nunca verificada. Hasta que supere una verificación, su error cuenta el doble y todo ensayo pasa con una
    observación.
scale-read = Marcó { $reading } con { $reference }.
scale-allowed = Las tolerancias permitían una división de la balanza más un { $percent } % de la masa.
scale-check-log = Anotar una verificación
scale-check-title = Verificación de { $scale }
scale-check-intro = Cuelgue o apoye en la balanza una pesa patrón, cercana a lo que pesa con ella, y escriba lo que marca.
scale-check-submit = Anotar la verificación
scale-check-reference = Pesa patrón
scale-check-beyond = { $mass } es más de lo que pesa esta balanza, { $capacity }. Mire el signo decimal, la unidad y la balanza.
scale-check-reference-zero = Para verificar hace falta una pesa patrón mayor que cero sobre la balanza.
scale-check-reading = Lo que marcó la balanza

seasons-title = Campañas
seasons-add = Agregar una campaña
seasons-none = Todavía no hay campañas.
seasons-none-why = Un factor del año pasado no vale este año. Una campaña le dice a Sowmark desde qué día hay que repetir el ensayo
    de cada dosificador.
seasons-season = Campaña
seasons-for = Para
seasons-all-crops = todos los cultivos
season-intro = Desde su primer día hay que repetir el ensayo de todos los dosificadores, o solo de los que llevan los cultivos que
    indique.
season-submit = Agregar la campaña
season-name = Nombre
season-name-hint = Por ejemplo «Primavera 2027».
season-first-day = Primer día
season-crops = Solo para estos cultivos
season-crops-hint = Separados por comas; vacío para todos los cultivos.

labels-title = Etiquetas para las máquinas
labels-show = Mostrar estas etiquetas
labels-none = Agregue la primera y luego imprima aquí su etiqueta.
labels-why = Una etiqueta en la puerta de la máquina abre su página en un teléfono: quien la escanea ingresa una vez y llega allí.
labels-machines = Máquinas
labels-paper = Papel
labels-paper-a4 = A4, ocho etiquetas de 99,1 × 67,7 mm
labels-paper-letter = Carta, diez etiquetas de 4 × 2 pulgadas
labels-cutting-lines = Líneas de corte, para papel común
labels-tick-one = Marque al menos una máquina.
labels-print = Imprima esta página desde el navegador al 100 %. Solo se imprimen las etiquetas, y ninguna queda cortada al final de
    una página.
labels-sheet = Hoja { $number }
label-title = Etiqueta de { $seeder }
label-print = Imprima esta página y fíjela en la puerta de la máquina bajo una lámina transparente. Quien escanea el código llega a
    la página de esta máquina; si todavía no ingresó, pasa antes por el ingreso.
label-all = Etiquetas pequeñas de todas las máquinas, en una hoja
label-code = Código QR que abre la página de { $seeder }
label-unreachable = El código abriría { $address }, y ningún teléfono llega ahí. Abra Sowmark en la dirección que usan los teléfonos,
    o inicie el servidor con esa dirección en { $option }, y después imprima.

## Modificar lo que está en las fichas

change-link = Modificar
change-title = Modificar { $what }
change-intro = Las páginas, las listas y los informes dicen después lo que figure aquí, también los de registros anteriores. Lo que
    figuraba antes, y quién lo modificó, queda en el registro de cambios.
change-submit = Guardar los cambios
meanwhile = Entretanto esto se cambió a «{ $now }». Guarde otra vez para poner lo suyo en su lugar.
meanwhile-by = Entretanto { $who } cambió esto a «{ $now }». Guarde otra vez para poner lo suyo en su lugar.
meanwhile-emptied = Entretanto esto quedó vacío. Guarde otra vez para poner lo suyo en su lugar.
meanwhile-emptied-by = Entretanto { $who } dejó esto vacío. Guarde otra vez para poner lo suyo en su lugar.
meanwhile-at-once = En el mismo momento se guardó otra cosa, así que no se guardó nada. Lo que escribió está aquí: guarde otra vez.
change-id-stays = Un id se conserva: los registros se guían por él. No lo envíe.
change-client = Quien tiene el rol de agronomía y está limitado a clientes ve lo que figura como de ellos: si pasa a otro cliente,
    lo ve quien está limitado a ese.
field-change-area = Las labores conservan la superficie que se anotó con ellas.
roller-change-displacement = Los ensayos conservan aquello con que se compararon; el próximo se compara con esto.
scale-change-step = Los ensayos conservan la división con que se evaluaron. Que la balanza haya superado sus verificaciones depende
    de la división que figure, y también lo pendiente por esa causa.
scale-change-capacity = Los ensayos conservan la capacidad con que se evaluaron.
season-change-start = Lo pendiente depende del día que figure, también para momentos pasados: puede haber dosificadores con los que
    haya que repetir el ensayo, o que ya no.
season-change-crops = Lo pendiente depende de los que figuren.
lot-change-intro = Corrija lo que se copió mal del rótulo. Qué es el lote y la masa recibida se conservan: un movimiento o un
    recuento ajusta las existencias. Lo que figuraba antes, y quién lo modificó, queda en el registro de cambios.
lot-change-crop = Lo pendiente depende del cultivo que figure, también para momentos pasados: puede haber dosificadores con los que
    haya que repetir el ensayo, o que ya no.
lot-material-stays = Qué es un lote se conserva. Agregue otro lote para lo que no sea de este.
lot-received-mass-stays = La masa recibida se conserva. Anote un movimiento o un recuento para ajustar las existencias.

## La cronología de una sembradora y la anulación de un registro

record-when = Cuándo
record-from-when = Desde cuándo
record-note = Nota
record-was-wrong = Esto estaba mal
record-kind = { $kind ->
    [calibration] esta calibración
    [configuration] esta configuración
    [decision] esta decisión
    [emptying] este vaciado
    [fill] esta carga
    [job] esta labor
    [lay_up] esta salida de servicio
    [lot_test] este análisis de lote
    [movement] este movimiento
    [scale_check] esta verificación de balanza
    [service] esta reparación
    [setup] este montaje
    [waiver] esta excepción
   *[other] este registro
}

timeline-title = Lo que pasó
timeline-none = Todavía nada.
timeline-older = Anteriores
timeline-no-such-page = Ninguna página terminó aquí. Use la marca que dio la página anterior.
timeline-of-unit = { $unit }: { $says }
timeline-configuration = Ancho de labor { $width }, surcos a { $spacing }.
timeline-setup = Montaje: rodillo { $roller }, relación de transmisión { $ratio }{ $gated ->
        [yes] , compuerta { $gate }
       *[no] {""}
    }, { $runs ->
        [one] { $runs } bajada
       *[other] { $runs } bajadas
    } en uso.
timeline-service = Cambio o reparación: { $part }. { $affects ->
    [yes] Afecta a la dosificación.
   *[no] No afecta a la dosificación.
}
timeline-laid-up = Quedó fuera de servicio.
timeline-in-use-again = Volvió al servicio.
timeline-filled = Tolva cargada con el lote { $lot } ({ $crop }){ $weighed ->
        [yes] , { $mass }
       *[no] {""}
    }.
timeline-emptied = Tolva vaciada del lote { $lot } ({ $crop }){ $weighed ->
        [yes] , { $mass }
       *[no] {""}
    }.
timeline-taken-out = Sacado de la tolva: lote { $lot } ({ $crop }){ $weighed ->
        [yes] , { $mass }
       *[no] {""}
    }.
timeline-job = Labor terminada: { $named ->
        [yes] { $field }
       *[no] un campo sin nombre
    }, { $area } sembradas con { $seed }.
timeline-caught = Ensayo anotado con el lote { $lot } ({ $crop }): { $verdict ->
        [pass] aprobado
        [pass_with_remarks] aprobado con observaciones
       *[fail] no aprobado
    }.
timeline-decided = Calibración en espera: { $decision ->
        [accepted] aceptada
       *[rejected] rechazada
    }.
timeline-waived = Motivo que se dejó pasar: { $trigger }.

void-title = Anular { record-kind }
# Qué hacer con un registro que estaba mal: dos caminos, el primero donde tiene un formulario propio.
wrong-title = Corregir o anular { record-kind }
wrong-intro = Se trata de { record-kind } del { $when }, que anotó { $by }. No se borra nada: se sigue leyendo, con el texto tachado,
    y deja de contar en los cálculos.
wrong-again = Ocurrió, pero no así
wrong-again-how = Se abre el formulario con lo que se anotó. Lo que guarde ocupa su lugar.
wrong-again-act = Corregir
wrong-void = No ocurrió
wrong-void-how = { $replaces ->
    [yes] Queda anulado y vuelve a valer el registro que había reemplazado.
   *[no] Queda anulado y nada ocupa su lugar.
}
wrong-of = Pertenece a
correction-submit = Guardar la corrección
correction-note = Aquí está lo que anotó { $by } para el { $when }. Cambie lo que estaba mal: al guardar, esto ocupa su lugar y lo
    anotado se sigue leyendo, con el texto tachado.
correction-note-catch = Entonces se juzga de nuevo, con las tolerancias de hoy; lo que decidió la oficina no pasa a lo nuevo.
void-reason = Qué estaba mal
void-reason-hint = Otros leen esto junto al registro.
void-submit = Anular
void-already = Ya se anuló antes { record-kind }. No se modificó nada.

record-moment = { date-day-of-year }, { $time }
# Lo que sigue a «hasta»: un día entero o un momento.
record-end = { $end ->
    [day] el final del { $when }
   *[moment] el { $when }
}
# Quién anotó un registro que reemplaza a otro.
record-by-correction = { $name }, como corrección
record-by-host = la línea de comandos del servidor
record-void = Anulado el { $at } por { $by }: { $reason }
record-void-withheld = Anulado el { $at } por { $by }. El porqué queda en la oficina.
record-replaced = Reemplazado por una corrección.
record-doubt-clock = Al enviar esto, el reloj del teléfono iba { $span } { $side ->
        [ahead] adelantado
       *[behind] atrasado
    }; las horas de este registro pueden tener ese error.
record-doubt-dated-later = La fecha es { $span } posterior a la recepción en el servidor; la hora puede estar mal.
record-span-minutes = { $minutes } minutos
record-span-hours = { $hours } horas
record-span-days = { $days } días


## La planilla de recogida y el registro de calibración

catch-title = Ensayo: { $seeder }, { $unit }
catch-fitted = { $runs ->
    [one] { $roller }, relación { $ratio }, { $runs } bajada en uso
   *[other] { $roller }, relación { $ratio }, { $runs } bajadas en uso
}
catch-fitted-gate = { $runs ->
    [one] { $roller }, relación { $ratio }, compuerta { $gate }, { $runs } bajada en uso
   *[other] { $roller }, relación { $ratio }, compuerta { $gate }, { $runs } bajadas en uso
}
catch-nothing-fitted = No consta qué está montado: anote primero el rodillo, la relación y las bajadas.
catch-lot-named = { $crop }, lote { $number }
catch-lot-named-variety = { $crop } { $variety }, lote { $number }

catch-worked-out = Calculado, todavía sin guardar
catch-fails = No se supera una comprobación. Repita el ensayo, o guárdelo para que decida la oficina.
catch-would-be = Sería { $number }; { $also }.
catch-before-the-next = Antes de la próxima repetición

catch-caught-at = Hora del ensayo
catch-lot = Lote en la tolva
catch-lot-none = Elija el lote
catch-scale = Balanza
catch-scale-none = Sin indicar la balanza
catch-method = Cómo giró el rodillo
catch-method-stationary = Parado, con su accionamiento
catch-method-driven = En marcha, sobre una distancia
catch-method-hand-turned = Girado a mano
catch-roller-speed = Velocidad del rodillo, vueltas por minuto
catch-planned-rate = Dosis prevista
catch-planned-speed = Velocidad de avance prevista
catch-counted = Qué se cuenta en cada repetición
catch-counted-revolutions = Vueltas del rodillo
catch-counted-turns = Giros de una manivela o rueda
catch-counted-pulses = Pulsos de un sensor
catch-counted-distance = Distancia recorrida
catch-per = Pulsos por vuelta, o circunferencia de rodadura
catch-per-hint = Solo para pulsos y para una distancia. La distancia y la circunferencia se dan en { $unit }.
catch-slip = Patinaje de la rueda, %
catch-slip-hint = Solo para una distancia, y solo si la circunferencia se midió sin carga: la medida en el trabajo ya incluye
    el patinaje.
# { $unit } puede representarse a sí misma: el guion de la planilla la completa de nuevo.
catch-mass-unit = Los pesos van en { $unit }; también se puede escribir alguno con su propia unidad, como 5 lb 8 oz.
catch-weigh-in = Pesar en { $unit }

# El número de la repetición es el primero del texto: el guion de la planilla lo aumenta.
catch-repeat = Repetición { $number }
catch-repeat-count = { $counted ->
        [turns] Giros de una manivela o rueda
        [pulses] Pulsos de un sensor
        [distance] Distancia recorrida
       *[revolutions] Vueltas del rodillo
    }, repetición { $number }
catch-repeat-aside = Apartar la repetición { $number }, porque
catch-repeat-aside-hint = Derrame, atasco: queda en el registro y fuera de las cuentas.
catch-run = Bajada
catch-runs = Bajadas que contiene
catch-tare = Tara
catch-gross = Bruto
catch-net = Neto
# Cómo se llama una bajada hasta que alguien la llame de otra manera.
catch-run-named = bajada { $number }
catch-field-of = { $label }, { $run }, repetición { $repeat }
catch-note = Nota
catch-add-run = Agregar una bajada
catch-add-repeat = Agregar una repetición
catch-work-out = Calcular
catch-save = Anotar el ensayo
catch-factor-so-far = Factor hasta ahora, por bajada
catch-spread-so-far = Diferencia
catch-caught-so-far = Recogido
catch-missing = Falta todavía

catch-counts-nothing = Esto no dice nada de las vueltas. Indique las vueltas del rodillo como número, o pulsos con pulses_per_rev,
    o giros, o distancia con circunferencia.
catch-without-setup = No consta qué tenía montado este dosificador el { $when }, de modo que no se sabe con qué rodillo,
    relación y bajadas se hizo. Anote lo que estaba montado desde entonces y envíe el ensayo de nuevo.

# Qué fue de un ensayo enviado desde un teléfono; lo que sigue dice qué hacer.
catch-told = { $verdict ->
    [pass] El ensayo de { $seeder }, { $unit } tiene dictamen: aceptado.
    [pass_with_remarks] El ensayo de { $seeder }, { $unit } tiene dictamen: aceptado con observaciones.
   *[fail] El ensayo de { $seeder }, { $unit } tiene dictamen: no se supera una comprobación.
}
catch-told-number = Número para el controlador: { $number }.
catch-told-held = Queda retenido para la oficina: no ponga ningún número suyo en el controlador hasta que ella lo acepte.
catch-told-record = Ver el registro
catch-told-dismiss = Descartar el aviso

check-name-repeats = Repeticiones
check-name-repeat-agreement = Las repeticiones coinciden
check-name-run-uniformity = Las bajadas coinciden
check-name-catches-apart = Bajadas pesadas por separado
check-name-catch-mass = Masa de la recogida
check-name-uncertainty = Incertidumbre
check-name-roller-speed = Velocidad del rodillo
check-name-scale = Balanza
check-name-plausibility = Verosímil
checks-check = Comprobación
checks-outcome = Resultado
checks-value = Valor
checks-limit = Límite
checks-says = Qué dice
checks-title = Qué miran las comprobaciones
checks-one-title = Comprobación: { $name }
checks-source = Fuente: { $source }
checks-tolerance-off = desactivado
checks-change-tolerances = Cambiar las tolerancias
checks-office-keeps = Las tolerancias las fija la oficina.
checks-all = Todas las comprobaciones

suspicions-title = Qué pudo salir mal
suspicions-order = Primero lo más probable. Son indicios, no correcciones: revise y repita el ensayo.
suspicions-would-give = El factor sería { $factor } por bajada.
suspicion-name-tare-left-in = Se pesaron también las bolsas
suspicion-name-tare-missing = Falta una tara
suspicion-name-pounds-as-kilograms = Libras anotadas como kilogramos
suspicion-name-kilograms-as-pounds = Kilogramos anotados como libras
suspicion-name-ounces-as-tenths = Onzas anotadas como décimas de libra
suspicion-name-decimal-sign = Signo decimal corrido un lugar
suspicion-name-half-of-each-run = Recogida la mitad de cada bajada
suspicion-name-runs-miscounted = Bajadas mal contadas
suspicion-name-revolutions-doubled = El doble de vueltas
suspicion-name-revolutions-halved = La mitad de vueltas
suspicion-name-other-drive-ratio = Otra relación de transmisión
suspicion-name-one-run-low = Una bajada da poco
suspicion-name-not-primed = Dosificador sin llenar
suspicion-name-other-roller = Otro rodillo

key-in = Número para el controlador
key-in-heading = Número para el controlador:
key-in-none = Sin número para el controlador
key-in-none-short = Sin número

caution-before-you-start = Antes de empezar
caution-before-you-handle = Antes de manipularla
caution-show = mostrar
caution-hide = ocultar
caution-secure = Asegure la máquina para que no se mueva: calzada y en punto muerto, salvo que el método exija avanzar.
caution-guards = Deje puestas las protecciones. Manos, mangas y cabello lejos de rodillos, cadenas y ejes.
caution-one-at-control = Una sola persona en los mandos, a la vista de la otra.
caution-pressure = Quite la presión hidráulica y pare el motor antes de meter las manos.
caution-lift = Levante los pesos con ayuda.
caution-maker-first = Las instrucciones del fabricante, el rótulo de la semilla y las normas locales van primero. Sowmark no las
    sustituye.
caution-treated = Semilla tratada: { $product }.
caution-protection = Guantes, mascarilla y protección ocular según el rótulo. Nunca la use como pienso ni la muela. Deseche lo
    recogido de manera segura.
caution-dust = Evite el polvo al abrir las bolsas; recoja lo derramado; lávese antes de comer. Es un plaguicida con su propio
    rótulo.

calibration-title = Calibración del { $when }
calibration-all-of-unit = { $unit }: todas las calibraciones
calibration-caught = { $seeder }, { $unit }, ensayo del { $when }, hecho por { $who }
calibration-result = Resultado
calibration-worked-out = Calculado: { $number }; { $also }.
calibration-also = { $runs ->
    [one] ± { $within } % (k = { $factor }, { $freedom } grados de libertad); { $other }, { $runs } bajada
   *[other] ± { $within } % (k = { $factor }, { $freedom } grados de libertad); { $other }, { $runs } bajadas
}
calibration-fitted-corrected = Lo que estaba montado en este ensayo se corrigió después de juzgarlo. Las cifras de aquí son las que se juzgaron; el número para introducir ahora está en el tablero y en la página de la sembradora.
calibration-in-force = En vigor ahora.
calibration-not-in-force = No es el número en vigor.
calibration-unit-now = { $unit }: estado actual
calibration-waits = No se superó una comprobación. Espera a que la oficina lo acepte o lo rechace.
calibration-was-rejected = La oficina rechazó esta calibración.
calibration-does-not-stand = Este registro ya no vale.
calibration-lot = Lote
calibration-roller = Rodillo
calibration-gate = Compuerta
calibration-row-spacing = Distancia entre surcos
calibration-season = Campaña
calibration-bulk-density = Peso hectolítrico
calibration-scale = Balanza
calibration-drive-ratio = Relación de transmisión
calibration-runs-in-use = Bajadas en uso
calibration-working-width = Ancho de labor
calibration-roller-speed = Velocidad del rodillo
calibration-roller-speed-was = { $speed } vueltas por minuto
calibration-planned = Previsto
calibration-planned-was = { $rate } a { $speed }
calibration-thousand-seeds = Mil semillas
calibration-scale-then = Estado de la balanza
calibration-scale-not-named = sin indicar
calibration-scale-was = división { $step }, { $check ->
        [never] nunca verificada con una pesa patrón
        [in-force] con su última verificación vigente
        [long-ago] superó su última verificación hace demasiado
       *[failed] no superó su última verificación
    }
calibration-method = Giro del rodillo
calibration-method-was = { $method ->
    [driven] en marcha, sobre una distancia
    [hand_turned] a mano
   *[stationary] parado, con su accionamiento
}
calibration-expected = Esperado
calibration-expected-by-last = cerca de { $factor } por bajada, según la última calibración con este rodillo y este cultivo
calibration-expected-by-last-and-density = cerca de { $factor } por bajada, según la última calibración con este rodillo y este
    cultivo, por { $ratio } debido al peso hectolítrico de ahora y de entonces
calibration-expected-by-displacement = cerca de { $factor } por bajada, según el volumen por vuelta del rodillo y el peso
    hectolítrico
calibration-note = Nota
calibration-other-units = El número en otras unidades
calibration-for = Para
calibration-measured = Medido
calibration-measured-values = Valores medidos
calibration-repeat = Repetición
calibration-run = Bajada
calibration-runs = Bajadas
calibration-tare = Tara
calibration-gross = Bruto
calibration-net = Neto
calibration-repeat-total = { $revolutions } vueltas; { $factor } por bajada; las bajadas varían un { $cv }
calibration-set-aside = Apartada: { $reason }
calibration-by-pulses = { $made } ({ $pulses } pulsos, { $per } por vuelta)
calibration-by-turns = { $made } ({ $turns } giros, relación { $ratio })
calibration-by-distance = { $made } ({ $distance }, circunferencia { $circumference }, relación { $ratio })
calibration-by-distance-and-slip = { $made } ({ $distance }, circunferencia { $circumference }, patinaje { $slip } %, relación
    { $ratio })
calibration-runs-in-line = Cada bajada frente a la media: { $runs }.
calibration-minimum-catch = Con la división de esta balanza una recogida debería pesar al menos { $mass }.
calibration-checks = Comprobaciones
calibration-uncertainty = Incertidumbre
calibration-budget = Componentes de la incertidumbre
calibration-budget-source = Componente
calibration-budget-from = De dónde viene
calibration-budget-percent = Relativa, %
calibration-budget-freedom = Grados de libertad
calibration-budget-repeats = Repeticiones
calibration-budget-reading = Lectura de la balanza
calibration-budget-scale = Balanza
calibration-budget-revolutions = Vueltas
calibration-budget-together = En conjunto
calibration-budget-expanded = ± { $within } % con k = { $factor }
calibration-decisions = Decisiones
calibration-decisions-none-yet = Ninguna todavía: una comprobación no superada espera a la oficina.
calibration-decisions-none-needed = No hace falta ninguna: lo que se supera se acepta enseguida.
calibration-decided-by = por { $who }: { $reason }
calibration-signed-caught = Hizo el ensayo
calibration-signed-office = Oficina
calibration-record = Registro { $id }, anotado el { $when }
calibration-decide = Decidir
calibration-decision = Decisión
calibration-decision-accept = Aceptar: el número puede usarse en el controlador
calibration-decision-reject = Rechazar: hay que repetir el ensayo
calibration-decision-reason = Motivo
calibration-decision-reason-hint = Por qué, en una frase. Queda en el registro con su nombre.
calibration-decision-submit = Decidir con este motivo
calibration-decision-without-reason = Una decisión necesita su motivo. Escriba por qué, en una frase.
calibration-not-held = { $status ->
    [accepted] Esta calibración está aceptada. Solo espera una decisión la que está retenida.
    [rejected] Esta calibración está rechazada. Solo espera una decisión la que está retenida.
    [held] Esta calibración está retenida. Solo espera una decisión la que está retenida.
   *[void] Esta calibración está anulada. Solo espera una decisión la que está retenida.
}

calibrations-title = Calibraciones: { $seeder }, { $unit }
calibrations-none = Todavía no hay ninguna calibración. Un ensayo durante unas vueltas del rodillo, pesado bajada por bajada, da a
    este dosificador su número para el controlador.
calibrations-table = Calibraciones
calibrations-caught = Ensayo
calibrations-lot = Lote
calibrations-factor = Factor por bajada
calibrations-uncertainty = Incertidumbre
calibrations-verdict = Dictamen
calibrations-became = Qué fue de ella
calibrations-by = Por
calibrations-more = Más
calibrations-log = Anotar un ensayo


## Qué rodea a un ensayo

around-more = Aire, tolva, lugar y quién lo revisó
around-air-temperature = Temperatura del aire
around-humidity = Humedad relativa
around-humidity-percent = Humedad relativa, %
around-tank-fill = Tolva llena hasta cerca del
around-tank-fill-percent = Qué tan llena estaba la tolva, %
around-tank-fill-hint = Más o menos, a ojo: la altura de la semilla influye en lo que entrega una vuelta.
around-place = Lugar
around-place-hint = El patio, un lote de campo, un galpón.
around-checked-by = Revisado por
around-checked-by-hint = Quién miró el ensayo además de quien lo anota.
around-known-mass = Pesa patrón de la verificación de la balanza
around-certificate = Su certificado
scale-check-identity = Qué está marcado en la pesa patrón
scale-check-identity-hint = Su número o nombre, por el que se la distingue de otras.
scale-check-certificate = Certificado de la pesa patrón
scale-check-certificate-hint = Quién lo emitió y su número: por él la balanza remite a un patrón.
scale-check-known-mass = Pesa patrón: { $identity }.
scale-check-certified = Certificado: { $certificate }.
fault-no-air = { $given } no es un aire en el que se ensaye semilla. Use de −60 °C a 60 °C; mire el signo y la unidad.

## Gráficos

chart-named = Gráfico: { $title }
chart-table-named = Tabla: { $title }
chart-as-table = Lo mismo como tabla
chart-month = { $month ->
    [1] ene
    [2] feb
    [3] mar
    [4] abr
    [5] may
    [6] jun
    [7] jul
    [8] ago
    [9] sep
    [10] oct
    [11] nov
   *[12] dic
}
chart-day-of-month = { $day } { chart-month }
chart-month-of-year = { chart-month } { $year }

chart-over-time = Factor a lo largo del tiempo, { $unit } por bajada
chart-over-speed = Factor según la velocidad del rodillo, { $unit } por bajada: { $of }
chart-of-lot = Factores de este lote en todas las sembradoras, { $unit } por bajada
chart-roller-speed = velocidad del rodillo, rpm
chart-one-catch = Un ensayo, el { $day }.
chart-catches = { $count ->
    [one] { $count } ensayo del { $first } al { $last }, entre { $least } y { $most }.
   *[other] { $count } ensayos del { $first } al { $last }, entre { $least } y { $most }.
}
chart-latest = El último: { $factor } { $within }, { $series }, el { $day }.
chart-never-elsewhere = Nunca es un número para otro controlador: un factor vale para el dosificador ensayado y para ningún otro.
chart-held = { $count ->
    [one] Uno espera a la oficina y se dibuja hueco.
   *[other] { $count } esperan a la oficina y se dibujan huecos.
}
chart-rejected = { $count ->
    [one] Uno que fue rechazado no se dibuja.
   *[other] { $count } que fueron rechazados no se dibujan.
}
chart-void = { $count ->
    [one] Uno que ya no vale no se dibuja.
   *[other] { $count } que ya no valen no se dibujan.
}
chart-older = Los más antiguos están en la lista de todos los ensayos.
chart-speeds = { $speeds ->
    [2] { $count } ensayos a dos velocidades, con la recta que los ajusta y su incertidumbre (95 %).
    [one] { $count } ensayos a { $speeds } velocidad, con la recta que los ajusta y su incertidumbre (95 %).
   *[other] { $count } ensayos a { $speeds } velocidades, con la recta que los ajusta y su incertidumbre (95 %).
}
chart-one-scale = Todos se pesaron en una misma balanza, cuyo error es igual a cualquier velocidad y no entra en las barras ni en
    la banda.
chart-several-scales = No todos se pesaron en una misma balanza indicada, de modo que su error entra en la banda.
chart-runs = Cada bajada frente a la media de las bajadas, %
chart-runs-caught = Bajadas recogidas el { $day }: desvío de su media, %
chart-runs-of = { $repeats ->
    [1] Una repetición de { $runs } bajadas.
    [one] { $repeats } repetición de { $runs } bajadas.
   *[other] { $repeats } repeticiones de { $runs } bajadas.
}
chart-runs-extremes = En promedio la más baja es { $low } ({ $low_off }), la más alta { $high } ({ $high_off }).
chart-runs-limits = Las líneas de trazos están 5 % por debajo y por encima de la media.
chart-repeat = Repetición { $number }

chart-column-caught = Ensayo
chart-column-lot = Lote
chart-column-roller = Rodillo
chart-column-unit = Dosificador
chart-column-factor = Factor, { $unit }
chart-column-uncertainty = Incertidumbre
chart-column-roller-speed = Velocidad del rodillo, rpm
chart-column-standing = Situación
chart-column-run = Bajada
chart-column-average = En promedio
chart-column-always = En cada repetición
chart-is-held = retenido
chart-is-accepted = aceptado
chart-always-low = baja
chart-always-high = alta

# Lo que pudo cambiar el factor, junto a una marca: breve.
chart-event-roller = Rodillo: { $roller }
chart-event-ratio = Relación { $ratio }
chart-event-gate = Compuerta { $gate }
chart-event-no-gate = Sin compuerta
chart-event-runs = { $runs ->
    [one] { $runs } bajada
   *[other] { $runs } bajadas
}
chart-event-replaced = Cambio: { $part ->
        [hydraulic_motor] motor hidráulico
        [electric_motor] motor eléctrico
        [control_valve] válvula de control
        [speed_sensor] sensor de velocidad
        [meter_housing] carcasa del dosificador
        [seal] junta
        [drive_train] transmisión
        [fan] ventilador
        [controller] controlador
       *[other] otra pieza
    }
chart-event-lot = Lote { $number }


## El plan de dosis

plan-title = Plan de dosis
plan-live-title = Plan de dosis por semilla pura viva
plan-to-sow = Para sembrar
plan-rate = Dosis
plan-roller-at = velocidad del rodillo a { $speed } en { $seeder }, { $unit }
plan-beyond-drive = El accionamiento no puede mantener esto: gira de { $least } a { $most } rpm.
plan-other-rates = Otras dosis y velocidades
plan-catch = Recoger para este plan
plan-noted = Plan de siembra. { $how }
plan-working = El cálculo
plan-what = Qué
plan-outcome = Resultado
plan-how = Cómo
plan-lot-and-unit = Lote y dosificador
plan-lot = Lote
plan-no-lot = Sin lote
plan-unit = Dosificador
plan-no-unit = Sin dosificador
plan-fill-in = Completar con lo conocido
plan-plants = Plantas
plan-live = Semilla pura viva
plan-how-well-known = Cuán bien se conocen las cifras
plan-by-plants = Por plantas deseadas
plan-by-live = Por semilla pura viva deseada
plan-submit = Mostrar la dosis
plan-give-speed = Indique una velocidad de avance para ver la velocidad del rodillo.
plan-another-lot = El número en vigor en { $seeder }, { $unit } es para el lote que está en su tolva, no para { $lot }. Cargue ese
    lote, anótelo y haga un ensayo.
plan-from-seeder = Como está configurada la sembradora.
plan-from-test = Del análisis del lote, del { $when }.
plan-from-label = Del rótulo del lote.

plan-plants-wanted = Plantas deseadas
plan-per-m2 = por m²
plan-per-ft2 = por ft²
plan-germination = Poder germinativo, %
plan-without-hard-seed = Sin semilla dura.
plan-share = Lo que llega a nacer, %
plan-share-hint = El logro se refiere a todas las semillas e incluye el poder germinativo. La emergencia se refiere a las
    semillas que germinan. La pérdida en el campo se resta del poder germinativo, punto por punto.
plan-share-establishment = logro
plan-share-emergence = emergencia
plan-share-loss = pérdida en el campo
plan-purity = Pureza, %
plan-live-wanted = Semilla pura viva deseada
plan-hard-seed = Semilla dura o latente, %
plan-hard-seed-hint = Los rótulos la indican aparte del poder germinativo.
plan-hard-seed-counted = Semilla dura o latente
plan-hard-seed-left-out = no se cuenta
plan-hard-seed-is-live = cuenta como viva
plan-seed-weight = Peso de la semilla
plan-grams = g por mil semillas
plan-seeds-per-kg = semillas por kg
plan-seeds-per-lb = semillas por lb
plan-speed = Velocidad de avance
plan-speed-hint = Para la velocidad del rodillo, con el número en vigor en el dosificador.
plan-row-spacing = Distancia entre surcos
plan-bulk-density = Peso hectolítrico
plan-for-bushels = Para los bushels.
plan-seed-weight-doubt = Peso de la semilla, ± %
plan-seeds-tested = Semillas del análisis de germinación
plan-seeds-tested-hint = Contar esa cantidad de semillas deja el poder germinativo abierto en unos puntos; se calculan a partir de
    ella.
plan-seed-doubt = O bien: poder germinativo o logro, ± puntos
plan-field-doubt = Emergencia o pérdida en el campo, ± puntos

plan-says-establishment = Logro { $percent }: { $how }.
plan-says-live = Semilla pura viva { $percent }: { $hard ->
        [counted] pureza por poder germinativo, con la semilla dura o latente contada como viva
        [left-out] pureza por poder germinativo, sin contar la semilla dura o latente
       *[not-stated] pureza por poder germinativo
    }.

plan-step-plants = Plantas deseadas
plan-step-come-up = Llegan a nacer
plan-step-establishment-given = logro tal como se indicó
plan-step-times-emergence = poder germinativo { $germination } % por emergencia { $emergence } %
plan-step-less-loss = poder germinativo { $germination } % menos pérdida en el campo de { $loss } puntos
plan-step-seeds = Semillas
plan-step-seeds-how = plantas entre lo que llega a nacer
plan-step-seeds-of-rate = dosis entre peso de la semilla
plan-step-live-seeds = Semillas vivas
plan-step-live-seeds-how = semilla pura viva entre peso de la semilla
plan-step-weight = Peso de la semilla
plan-step-weight-how = { $per_kg } semillas por kg, { $per_lb } por lb
plan-step-weight-result = { $weight } g por mil semillas
plan-step-rate = Dosis
plan-step-rate-how = semillas por peso de la semilla
plan-step-bag = De la bolsa
plan-step-bag-how = dosis entre pureza, { $purity } %
plan-step-along = Semillas a lo largo de un surco
plan-step-along-how = semillas por distancia entre surcos, { $spacing }
plan-step-along-result = { $per_m } por m ({ $per_ft } por ft)
plan-step-bushels = Bushels
plan-step-bushels-how = dosis entre peso hectolítrico, { $density }
plan-step-range = Dosis, hasta donde se conocen las cifras
plan-step-range-how = semianchos sumados en cuadratura
plan-step-range-result = { $least } a { $most } { $unit }
plan-step-live-wanted = Semilla pura viva deseada
plan-step-alive = Viva
plan-step-alive-how = { $hard_seed ->
    [counted] poder germinativo { $germination } % y { $hard } % dura o latente
    [left-out] poder germinativo { $germination } %; { $hard } % dura o latente sin contar
   *[not-stated] poder germinativo { $germination } %
}
plan-step-live-in-bag = Semilla pura viva en la bolsa
plan-step-live-in-bag-how = viva por pureza, { $purity } %
plan-step-bag-rate = Dosis de la bolsa
plan-step-bag-rate-how = lo deseado entre lo que es puro y vivo
plan-step-roller = Velocidad del rodillo
plan-step-roller-how = dosis por ancho { $width } por { $speed }, entre { $runs } bajadas de { $factor }
plan-step-per-area = { $per_m2 } por m² ({ $per_ft2 } por ft²)

plan-missing-plants = Falta este dato. (Para semilla pura viva se pide pls_rate en su lugar.)
plan-missing-share = Falta este dato: qué parte de la semilla llega a nacer.
plan-one-of = Indique { $name } o esto, no los dos.
plan-plants-twice = Indique plants_per_m2 o esto, no los dos.
plan-two-ways = Indique plantas deseadas o semilla pura viva deseada, no las dos.
plan-hard-seed-of-plants = La semilla dura corresponde a la semilla pura viva: indique pls_rate en vez de plantas.
plan-establishment-twice = Indique el logro, o esto con el poder germinativo, no los dos.
plan-emergence-and-loss = Indique emergence_percent o esto, no los dos: se calculan de distinta manera.
plan-doubt-twice = Indique seed_plus_minus_points o esto, no los dos.
plan-tested-without-germination = Esto corresponde a un poder germinativo que entra en el cálculo. Junto a un logro, indique sus
    puntos.
plan-of-plants = Esto corresponde a plantas deseadas, no a semilla pura viva.


## Lotes de semilla, análisis, existencias y tolvas

lots-title = Lotes de semilla
lots-add = Agregar un lote de semilla
lots-none = Todavía no hay lotes.
lots-none-what = Un factor vale para un lote: su número, cultivo y variedad, el análisis y el tratamiento del rótulo, y lo
    que se
    midió desde entonces.
lots-none-keep = Agregue el primero con los datos de su rótulo.
lots-none-office = La oficina agrega los lotes.
lots-lot = Lote
lots-treated = Tratada
lots-not-treated = sin tratar
lots-rate-plan = Plan de dosis: de las plantas deseadas a una dosis
lot-called = { $named ->
    [variety] { $crop }, { $variety }, lote { $number }
   *[crop] { $crop }, lote { $number }
}
lot-called-treated = { $lot } (semilla tratada)
lot-choose = Elija el lote
lot-choose-none = Todavía no hay lotes. La oficina los agrega; después se pueden elegir aquí.

lot-intro = Cópielo del rótulo. Lo que no figura en él puede quedar vacío.
lot-number = Número de lote
lot-number-hint = Como está impreso en el rótulo.
lot-material = Qué es
lot-material-seed = Semilla
lot-material-fertilizer = Fertilizante
lot-material-other = Otro producto seco
lot-crop = Cultivo
lot-crop-hint = La especie, por ejemplo trigo de invierno; de otro producto seco, su nombre. Escríbalo siempre igual.
lot-product = Producto
lot-variety = Variedad
lot-supplier = Proveedor
lot-received-ahead = Ese día aún no ha llegado. Mire el año.
lot-received-on = Recibido el
lot-received-mass = Masa recibida
lot-treated-with = Tratada con
lot-treated-with-hint = El producto que nombra el rótulo. Déjelo vacío si la semilla no está tratada.
lot-caution = De qué advierte el rótulo
lot-caution-hint = Con las palabras del rótulo. Se muestra a quien carga, ensaya o vacía.
lot-tested-on = Fecha del análisis del rótulo
lot-submit = Agregar el lote

lot-title = Lote { $number }
lot-of-client = de { $client }
lot-record-test = Anotar un análisis
lot-label = Rótulo
lot-purity = Pureza
lot-germination = Poder germinativo
lot-label-test = Análisis del rótulo
lot-treatment = Tratamiento
lot-treatment-none = ninguno
lot-tests = Análisis
lot-tests-none = Todavía no se midió nada de este lote. Su peso de mil semillas y su peso hectolítrico dicen cuándo un factor
    deja de
    valer para él.
lot-factors = Sus factores
germination-age = Poder germinativo según { $of ->
        [label] el análisis del rótulo
       *[test] el análisis
    } de { date-month } de { $year }, { $months ->
        [0] de este mes
        [one] de hace { $months } mes
       *[other] de hace { $months } meses
    }.
germination-to-come = Poder germinativo según { $of ->
        [label] el análisis del rótulo
       *[test] el análisis
    } de { date-month } de { $year }: esa fecha todavía no llegó, así que revísela.
germination-rules = { $hermetic ->
    [yes] Algunas normas para la semilla que se vende en envases herméticos mencionan { $months } meses calendario después del mes
        del análisis.
   *[no] Algunas normas para la semilla que se vende en envases que no son herméticos mencionan { $months } meses calendario después
        del mes del análisis.
} Rigen las normas de su lugar.

test-tested = Analizado
test-thousand-seeds = Mil semillas
test-bulk-density = Peso hectolítrico
test-germination = Poder germinativo, %
test-purity = Pureza, %
test-moisture = Humedad, %
test-title = Análisis de { $lot }
test-intro = Indique lo que se midió, al menos un valor; deje vacío lo demás.
test-when = Cuándo se analizó
test-thousand-seed-weight = Peso de mil semillas
test-thousand-seed-weight-hint = Si difiere del análisis vigente en el último ensayo en más de la tolerancia, hay que repetir
    el
    ensayo de los dosificadores con este lote.
test-bulk-density-entered = Peso hectolítrico
test-submit = Anotar el análisis
test-of-nothing = Este análisis no midió nada. Indique al menos un valor: peso de mil semillas, peso hectolítrico, poder
    germinativo,
    pureza o humedad.

stock-title = Existencias
stock-record = Anotar un movimiento o un recuento
stock-received = Recibido
stock-filled = Cargado en tolvas
stock-returned = Devuelto, también de tolvas
stock-sold = Vendido
stock-discarded = Descartado
stock-expected = Debería haber
stock-latest-count = Último recuento
stock-count = { $mass } el { $day }
stock-counted = { $side ->
    [less] { $counted }, { $difference } menos de lo que debía haber entonces
   *[more] { $counted }, { $difference } más de lo que debía haber entonces
}
stock-unweighed = { $fills ->
    [one] Una carga o un vaciado quedó sin pesar, de modo que este balance no lo incluye.
   *[other] { $fills } cargas o vaciados quedaron sin pesar, de modo que este balance no los incluye.
}
stock-movements = Movimientos

movement-title = Movimiento de { $lot }
movement-intro = Lo que se cargó en una tolva o se sacó de ella se anota en la sembradora, no aquí. Un recuento no cambia
    nada; dice
    cuánto queda sin explicar.
movement-kind = Qué pasó
movement-received = Recibido
movement-returned = Devuelto al depósito
movement-sold = Vendido
movement-discarded = Descartado
movement-counted = Recuento: hallado en el depósito
movement-what = Qué
movement-submit = Anotar el movimiento
movement-of-nothing = Mover nada no es un movimiento. Indique la masa que se movió; solo un recuento puede no hallar nada.

went-title = Adónde fue
went-nowhere = Todavía no se cargó en ninguna tolva. Las cargas, los vaciados y las labores se anotan desde la página de la
    sembradora.
went-nowhere-you-see = Todavía no se cargó en ninguna tolva que usted pueda ver. Las cargas, los vaciados y las labores se anotan desde la
    página de la sembradora.
went-filled = Carga: { $mass }
went-emptied = { $empty ->
    [yes] Vaciado completo: { $mass }
   *[no] Vaciado en parte: { $mass }
}
went-not-weighed = sin pesar
went-sown = Siembra en { $field }: { $seed } en { $area }, dosis deseada { $rate }

tank-filled-title = { $seeder }, { $unit }: carga de la tolva
tank-filled-intro = Otro lote encima de lo que queda hace una mezcla: cuenta como cargado el último. Si puede, vacíe antes la
    tolva y
    anótelo.
tank-filled-submit = Anotar la carga
tank-emptied-title = { $seeder }, { $unit }: vaciado de la tolva
tank-emptied-intro = Si puede, pese lo que sale: vuelve a las existencias del lote.
tank-emptied-submit = Anotar el vaciado
tank-mass-hint = Déjelo vacío si nadie pesó.
tank-mass-nothing = La masa es cero. Indique lo que se pesó, o déjelo vacío si nadie pesó.
tank-empty-now = ¿La tolva quedó vacía?
tank-empty-now-yes = Sí, no queda nada
tank-empty-now-no = No, queda semilla

log-when = Cuándo
log-mass = Masa
log-note = Nota
log-by = Anotado por

## Qué más dice el rótulo de un lote

label-more = Qué más dice el rótulo
label-month-hint = Año y mes, por ejemplo 2027-03.
label-origin = Producida en
label-origin-hint = País, o estado o provincia, de producción.
label-category = Categoría o clase
label-category-hint = Como figura en el rótulo. Elija una o escriba otra.
label-category-pre-basic = semilla prebásica
label-category-basic = semilla básica
label-category-certified-1 = semilla certificada, primera generación
label-category-certified-2 = semilla certificada, segunda generación
label-category-commercial = semilla comercial
label-category-foundation = semilla de fundación
label-category-registered = semilla registrada
label-category-not-final = sin certificación definitiva
label-category-none = sin certificar
label-certifying-authority = Certificada por
label-serial-number = Número de serie del rótulo
label-sealed-in = Precintada o muestreada en
label-declared-weight = Peso declarado
label-containers = Bolsas u otros envases
label-hermetic = Cerrada contra la humedad
label-hermetic-hint = Envases herméticos, en los que un análisis del poder germinativo vale por más tiempo.
label-hermetic-is = { $is ->
    [yes] sí, envases herméticos
   *[no] no
}
label-other-crop = Semilla de otros cultivos
label-other-crop-percent = Semilla de otros cultivos, %
label-weed-seed = Semilla de malezas
label-weed-seed-percent = Semilla de malezas, %
label-inert-matter = Materia inerte
label-inert-matter-percent = Materia inerte, %
label-noxious-weeds = Malezas nocivas
label-noxious-weeds-hint = Cada especie, y cuántas en qué masa.
label-hard-seed = Semilla dura o latente
label-hard-seed-percent = Semilla dura o latente, %
label-hard-seed-hint = De las semillas puras, aparte del poder germinativo. El plan de dosis de semilla pura viva la toma de aquí.
label-components = Componentes de una mezcla
label-components-hint = Cada especie y variedad con su parte.
label-additives = Píldora, recubrimiento o aditivo
label-additives-hint = De qué consiste, y qué parte del peso es.
label-inoculant-expires = Inoculante válido hasta
label-test-report = Informe del laboratorio
label-test-report-hint = El laboratorio y el número de su informe o certificado.
label-beyond-whole = La pureza, los otros cultivos, las malezas y la materia inerte suman { $sum } %, más que el todo. Compare cada
    valor con el rótulo.
label-hard-beyond = Un poder germinativo del { $germination } % y { $hard } % de semilla dura son más que todas las semillas. Compare
    ambos con el rótulo: allí la semilla dura figura aparte del poder germinativo.

## La tarjeta del lote

lot-card-title = Tarjeta del lote
lot-card-about = Una hoja por lote: su rótulo, sus análisis y su tratamiento, su balance, dónde se sembró y con qué máquinas, y las
    calibraciones hechas con él.
lot-card-submit = Mostrar la tarjeta
lot-card-choose = Elija un lote para ver su tarjeta.
lot-card-print = Imprima esta página para quien pregunte de dónde vino la semilla y adónde fue.
lot-card-open = La página del lote
lot-card-of-this = Tarjeta del lote para imprimir
lot-card-label-first = El rótulo de la semilla y las normas del lugar valen antes que esta página.
lot-card-no-tests = No se midió nada de este lote.
lot-card-moisture = Humedad
lot-card-balance = Balance
lot-card-doubt = Lo que sigue a ± es lo que las pesadas dejan abierto, con un 95 % aproximadamente.
lot-card-no-jobs = No hay labores con este lote que usted vea.
lot-card-calibrations = Calibraciones hechas con él
lot-card-no-calibrations = No hay calibraciones con este lote que usted vea.
lot-card-no-number = Estos factores dicen qué se midió entonces. El número que se introduce está en la tarjeta de cabina y en la página de la
    sembradora.

## Los registros como archivos

nav-exchange = Intercambio
exchange-title = Intercambio
exchange-lists = Listas para hojas de cálculo
exchange-lists-what = Cada lista es un archivo CSV con todas las filas que usted puede ver.
exchange-lists-own = Cada lista es un archivo CSV con las labores que usted anotó.
exchange-lists-note = Los encabezados son los mismos en todos los idiomas y llevan la unidad entre corchetes; el signo decimal es un punto, salvo que elija la coma. Junto a cada valor medido está lo que se escribió. El texto que una hoja de cálculo calcularía empieza con un apóstrofo.
exchange-from = Desde
exchange-to = Hasta, ese día incluido
exchange-form = Celdas y números
exchange-form-comma = Coma entre celdas, punto decimal
exchange-form-semicolon = Punto y coma entre celdas, coma decimal
exchange-client = Solo un cliente
exchange-mark = Marca de UTF-8
export-no-such-part = Esta lista no se puede limitar a eso; la de uso, sí.
exchange-mark-with = Con marca: para hojas de cálculo
exchange-mark-without = Sin marca: para programas
exchange-apply = Usar para los archivos
exchange-list-file = { $list }, CSV
exchange-list = { $list ->
    [seeders] Sembradoras
    [metering-units] Dosificadores
    [rollers] Rodillos
    [scales] Balanzas
    [scale-checks] Verificaciones de balanzas
    [seasons] Campañas
    [crews] Equipos
    [configurations] Anchos de labor
    [setups] Montajes
    [services] Reparaciones
    [lay-ups] Cambios de uso
    [clients] Clientes
    [fields] Campos
    [lots] Lotes de semilla
    [lot-tests] Análisis de lotes
    [movements] Movimientos
    [fills] Cargas
    [emptyings] Vaciados
    [jobs] Labores
    [calibrations] Calibraciones
    [catches] Recogidas
    [decisions] Decisiones
    [waivers] Excepciones
    [readiness] Estado de siembra
    [usage] Uso por labor
    [signatures] Auditorías firmadas
   *[audit] Registro de cambios
}
exchange-list-what = { $list ->
    [seeders] Cada máquina: ancho de labor, distancia entre surcos, en uso o no.
    [metering-units] Cada dosificador, con los datos de su sembradora al lado.
    [rollers] Los rodillos dosificadores.
    [scales] Las balanzas: división y capacidad.
    [scale-checks] Lo que indicó cada balanza con una pesa patrón.
    [seasons] Cuándo empieza cada campaña y para qué cultivos.
    [crews] Quién forma cada equipo y con qué sembradoras trabaja.
    [configurations] Cada ancho de labor y distancia entre surcos de cada sembradora, y desde cuándo.
    [setups] Cada rodillo, relación de transmisión y compuerta que se montó, y desde cuándo.
    [services] Piezas cambiadas o reparadas.
    [lay-ups] Cuándo quedó fuera de uso una sembradora o volvió a usarse.
    [clients] Para quién siembra la organización.
    [fields] Los campos con su superficie.
    [lots] Lo que dice el rótulo de cada lote, su proveedor y lo que entró.
    [lot-tests] Lo que se midió de los lotes.
    [movements] Semilla recibida, devuelta, vendida, desechada, contada.
    [fills] Semilla puesta en tolvas.
    [emptyings] Semilla sacada de tolvas.
    [jobs] Labores en el campo: superficie, semilla usada, dosis prevista.
    [calibrations] Factor, incertidumbre y estado de cada calibración.
    [catches] Lo que se recogió para cada calibración, una fila por recogida.
    [decisions] Qué decidió la oficina de los ensayos en espera, y por qué.
    [waivers] Qué motivo para ensayar de nuevo se dejó pasar, hasta cuándo y por qué.
    [readiness] Cada dosificador ahora: su número y lo que está pendiente.
    [usage] A qué llegó cada labor y con qué número.
    [signatures] Quién firmó qué auditoría de uso, y cuándo.
   *[audit] Quién hizo qué y cuándo, con la cadena de huellas.
}
exchange-csv = CSV

# Una lista que se incorpora desde un archivo.
import-kind = { $kind ->
    [seeders] Sembradoras con sus dosificadores
    [lots] Lotes de semilla
    [fields] Campos
    [jobs] Labores
   *[calibrations] Calibraciones pasadas
}
import-title = { $kind ->
    [seeders] Incorporar sembradoras
    [lots] Incorporar lotes de semilla
    [fields] Incorporar campos
    [jobs] Incorporar labores
   *[calibrations] Incorporar calibraciones pasadas
}
import-lists = Listas de otros programas
import-lists-what = Un archivo CSV se revisa fila por fila y se muestra con sus errores antes de guardar nada. Los archivos de las listas de esta página se pueden volver a incorporar.
import-recent = Últimos archivos enviados
import-intro = Primero se revisa el archivo, como si cada fila se escribiera a mano; después usted ve qué falla en qué fila y decide si se guardan las filas buenas. Las mismas filas enviadas otra vez se guardan una sola vez.
import-file = Archivo CSV
import-file-hint = UTF-8, con coma, punto y coma o tabulador entre celdas, de { $most } KiB como máximo. En una hoja de cálculo: guardar como CSV UTF-8.
import-check = Revisar el archivo
import-cannot-read = No se aceptó el archivo
import-columns = Columnas
import-columns-note = En cualquier orden. Entre los corchetes de un encabezado puede ir otra unidad. Una sembradora tiene una fila por cada dosificador; una calibración, una fila por cada recogida.
import-template = Archivo para empezar, CSV
import-heading = Encabezado
import-needed = Obligatorio
import-example = Ejemplo
import-yes = sí
import-no = no
import-no-file = Elija un archivo CSV.
import-utf-16 = El archivo está en UTF-16. Guárdelo como CSV UTF-8 y envíelo otra vez.
import-nul = El archivo contiene caracteres NUL: no es un archivo CSV. El archivo propio de una hoja de cálculo debe guardarse antes como CSV UTF-8.
import-not-utf-8 = El archivo no es UTF-8 desde la línea { $line }; lo más probable es Windows-1252. Guárdelo como CSV UTF-8 y envíelo otra vez.
import-empty = El archivo está vacío: su primera fila debe ser la de los encabezados.
import-columns-many = La primera fila tiene { $count } columnas; se aceptan { $most } como máximo. Quizá el archivo no sea CSV o sus filas no terminen.
import-row-unreadable = La fila { $row } no se puede leer como CSV.
import-row-length = La fila { $row } tiene { $given } celdas y los encabezados son { $wanted }: una celda que contenga el separador debe ir entre comillas.
import-cell-long = Una celda de la fila { $row } pasa de { $most } caracteres. Quizá falte antes una comilla.
import-rows-many = El archivo tiene más de { $most } filas. Divídalo y envíe las partes de a una.
import-no-rows = El archivo tiene encabezados y ninguna fila.
import-heading-unknown = Ninguna columna se llama «{ $given }». Los encabezados son: { $known }.
import-heading-twice = Dos columnas se llaman «{ $given }»; sobra una.
import-heading-missing = Faltan estas columnas: { $missing }.
import-heading-unit = El encabezado «{ $given }» necesita entre corchetes una de estas unidades: { $known }.
import-differs = Las filas de una misma entrada deben coincidir aquí: la fila { $row } dice otra cosa.
import-decimal-sign = «{ $given }»: el signo decimal de este archivo es «{ $sign }». O bien «{ $other }» quiere serlo, y entonces escriba
    «{ $sign }»; o bien separa millares, y entonces quítelo.
import-two-values = La columna de lo que se escribió dice «{ $entered }», que es otro valor. Vacíe el que no sea cierto.
import-no-such = { $what ->
    [client] Ningún cliente se llama «{ $name }»; agréguelo antes o corrija el nombre.
    [scale] Ninguna balanza se llama «{ $name }»; agréguela antes o corrija el nombre.
    [field] Ningún campo se llama «{ $name }»; agréguelo antes o corrija el nombre.
    [lot] Ningún lote de semilla tiene el número «{ $name }»; agréguelo antes o corrija el número.
   *[unit] Ninguna sembradora tiene ese dosificador: «{ $name }»; agréguelo antes o corrija los nombres.
}
import-several = { $what ->
    [client] Varios clientes se llaman «{ $name }»: debe quedar claro cuál es.
    [scale] Varias balanzas se llaman «{ $name }»: debe quedar claro cuál es.
    [field] Varios campos se llaman «{ $name }»: debe quedar claro cuál es.
    [lot] Varios lotes de semilla tienen el número «{ $name }»: indique también el cultivo en su columna o dé a cada lote un número propio.
   *[unit] Varias sembradoras tienen ese dosificador: «{ $name }»: debe quedar claro cuál es.
}
import-name-taken = Ya hay otro con este nombre, aquí o más arriba en el archivo: nadie podría distinguirlos. Quite la fila o póngale otro nombre.
import-not-checked = Este archivo no espera ninguna decisión: mire su página.
import-fault-row = Fila { $row }: { $says }
import-fault-column = Fila { $row }, columna «{ $column }», vacía: { $says }
import-fault-cell = Fila { $row }, columna «{ $column }», «{ $given }»: { $says }
import-progress = { $stage ->
    [checking] En revisión: { $done } de { $all } entradas.
   *[storing] Se guardan: { $done } de { $all } entradas.
}
import-progress-bar = Avance del archivo
import-leave = Puede dejar esta página; lo hecho queda guardado y la página sigue desde ahí.
import-checked = El archivo está revisado. Todavía no se guardó nada.
import-stored = El archivo está incorporado.
import-dropped = No se guardó nada de este archivo.
import-store = Guardar lo que está bien ({ $count })
import-drop = No guardar nada
import-count = { $outcome ->
    [good] { $count ->
        [one] { $count } entrada está bien.
       *[other] { $count } entradas están bien.
    }
    [stored] { $count ->
        [one] Se guardó { $count } entrada.
       *[other] Se guardaron { $count } entradas.
    }
    [already] { $count ->
        [one] { $count } entrada ya estaba guardada.
       *[other] { $count } entradas ya estaban guardadas.
    }
    [left_out] { $count ->
        [one] { $count } entrada ya no valía en el lugar de origen del archivo y queda fuera.
       *[other] { $count } entradas ya no valían en el lugar de origen del archivo y quedan fuera.
    }
   *[faulty] { $count ->
        [one] { $count } entrada tiene errores y no se guarda.
       *[other] { $count } entradas tienen errores y no se guardan.
    }
}
import-outcome = { $outcome ->
    [good] bien
    [stored] guardada
    [already] ya guardada
    [left_out] queda fuera
   *[faulty] con errores
}
import-stage = { $stage ->
    [checking] (en revisión)
    [checked] (espera su decisión)
    [storing] (se está guardando)
    [stored] (incorporado)
   *[dropped] (no se guardó)
}
import-faulty = Qué corregir
import-faulty-what = Corrija esto en su archivo y envíelo otra vez: lo que ya está guardado no se guarda dos veces.
import-rows = Filas
import-row = Fila
import-holds = Empieza con
import-becomes = Resultado
import-more = Filas siguientes

## Clientes, campos y labores

clients-title = Clientes
clients-none = Todavía no hay clientes.
clients-none-what = Un cliente es alguien para quien se siembra. Los campos y los lotes de semilla pueden ser de uno, y la
    cuenta de un
    agrónomo puede limitarse a algunos. Quien siembra solo lo suyo no necesita ninguno.
client-add = Agregar un cliente
client-name = Nombre
client-name-hint = Para quién se siembra: los campos y los lotes pueden ser suyos.
client-submit = Agregar el cliente
client-whose = Cliente
client-own = Nuestro
client-own-short = propio

fields-title = Campos
fields-none = Todavía no hay campos.
fields-none-what = Un campo que tiene aquí su nombre se puede elegir al anotar una labor, y así sus labores quedan juntas
    campaña
    tras campaña.
fields-none-keep = Agregue uno con su nombre y la superficie que se siembra.
fields-none-office = La oficina agrega los campos; hasta entonces la labor lleva el nombre del campo como usted lo escriba.
fields-field = Campo
fields-area = Superficie
fields-add = Agregar un campo
fields-name = Nombre
fields-area-sown = Superficie que se siembra
fields-submit = Agregar el campo

job-title = { $seeder }, { $unit }: labor terminada
job-intro = Qué se sembró y en cuánta tierra. La semilla pesada es la que muestra si un factor se desvió.
job-began = Comienzo
job-ended = Fin
job-too-much = { $seed } en { $area } es más de lo que siembra cualquier máquina. Mire los signos decimales y las unidades.
job-ended-too-early = La labor terminó antes de empezar. Revise las dos horas.
job-field = Campo
job-field-hint = El nombre que le da su gente.
job-field-other = Otro, con su nombre abajo
job-field-not-listed = Nombre de un campo que no está en la lista
job-field-missing = Falta el campo. Elija uno de la lista o escriba su nombre.
job-field-twice = El campo está indicado dos veces. Elija uno de la lista o escriba un nombre, no ambas cosas.
job-area = Superficie sembrada
job-seed-used = Semilla usada
job-seed-used-hint = Lo que se cargó menos lo que sobró.
job-basis = Cómo se sabe la semilla usada
job-basis-hint = Lo que suma la propia máquina no puede mostrar que su factor está mal.
job-basis-weighed = Pesada
job-basis-bags = Bolsas contadas
job-basis-machine-total = Lo que marca la máquina
job-target-rate = Dosis deseada
job-speed = Velocidad
job-submit = Anotar la labor

## Archivos de datos de tareas

exchange-task-data = Lo que contó una terminal, en la forma de ISO 11783-10: sus tareas pasan a ser labores, cada una una vez.
exchange-task-data-send = Enviar un archivo de datos de tareas
task-file-title = Datos de tareas de las máquinas
task-file-what = Labores a partir de los archivos que escribe el terminal de una máquina (ISO 11783-10).
task-file-intro = Un terminal que sigue la norma ISO 11783-10 escribe lo que hizo en TASKDATA.XML. Envíe ese archivo, o un zip de su
    carpeta; verá en qué se convertiría cada tarea y decidirá usted.
task-file-file = Archivo
task-file-file-hint = TASKDATA.XML, o un zip que lo contenga, de { $most } MB como máximo. Se leen las versiones 3 y 4.
task-file-not-chosen = No se eligió ningún archivo. Elija TASKDATA.XML, o un zip que lo contenga.
task-file-send = Leer el archivo
task-file-earlier = Archivos enviados
task-file-sent = Enviado
task-file-sent-by = Por
task-file-open = Todavía no se guardó nada. Indique qué significan aquí los nombres del archivo; se recuerda para el siguiente. Quite
    la marca de lo que no deba ser una labor.
task-file-none-open = Ninguna tarea de este archivo espera convertirse en labor.
task-file-later = { $count ->
    [one] Falta { $count } tarea, que se pregunta cuando estas estén guardadas.
   *[other] Faltan { $count } tareas, que se preguntan cuando estas estén guardadas.
}
task-file-submit = Guardar las labores
task-file-line = { $task }: { $product }
task-file-store = Convertirla en labor
task-file-unit = Dosificador
task-file-unit-called = { $seeder }, { $unit }
task-file-lot = Lote
task-file-choose = Elija
task-file-product-unknown = producto sin nombre
task-file-field = Campo
task-file-field-by-name = «{ $name }», solo el nombre
task-file-field-new = Agregar «{ $name }» a los campos
task-file-client = De quién es un campo nuevo
task-file-client-hint = Solo se usa cuando se agrega un campo.
task-file-client-new = Agregar «{ $name }» a los clientes
task-file-rate = Dosis objetivo
task-file-rate-by-count = El archivo pide { $seeds } semillas por m²: escriba cuánto era en peso.
task-file-rate-unknown = El archivo no nombra una sola dosis en peso.
task-file-seed-used = Semilla usada
task-file-machine-mass = { $mass }, según contó la máquina
task-file-balance-mass = { $mass }, cargado menos vaciado y sobrante, según se pesó
task-file-customer = Cliente del archivo
task-file-machine = Máquina
task-file-by-machine = Total de la máquina
task-file-by-balance = Balance pesado
task-file-revolutions = Vueltas del rodillo dosificador
task-file-mass-and-rate = { $mass }, { $rate }
task-file-nothing = nada
task-file-change = { $what }: { $was } entonces, { $is } ahora
task-file-stored = Ya es una labor.
task-file-changed = Ya es una labor, hecha con otros números, y no se sobrescribió. Corrija esa labor, o anúlela y guarde de nuevo la
    tarea.
task-file-to-seeder = Ir a la sembradora
task-file-twice = La misma máquina empezó en el mismo momento otra tarea de este archivo: anote una de las dos a mano.
task-file-no-time = El archivo no dice a qué hora se sembró: anótelo a mano.
task-file-faulty = No puede ser una labor:
task-file-not-new = Esta línea no puede ser una labor, o ya lo es. Quítele la marca.
task-file-others = Tareas sin nada sembrado
task-file-planned = solo planeada
task-file-note = De los datos de tareas «{ $file }»: { $task }, { $machine }

## El tablero de estado y las tolerancias

state-ready = Listo
state-check = Comprobar
state-calibrate = Calibrar
state-empty = Vacío
state-laid-up = Fuera de uso
outcome-pass = Aprobado
outcome-remark = Observación
outcome-fail = No aprobado
verdict-pass = Aprobado
verdict-pass-with-remarks = Aprobado con observaciones
verdict-fail = No aprobado
status-accepted = Aceptada
status-held = En espera de la oficina
status-rejected = Rechazada
status-void = Anulada

board-as-of = Estado a la fecha { $moment }, según lo que se sabe ahora.
board-show-now = Mostrar el actual
board-see-refused = Ver qué se envió y por qué
board-all = Todos
board-crew = Equipo
board-crews-all = Todos los equipos
board-crop = Cultivo en la tolva
board-crops-all = Todos los cultivos
board-at = A la fecha
board-at-no-moment = No es una fecha con hora. Indique las dos; se muestra el estado actual.
board-show = Mostrar
board-none = Ningún dosificador está así.
board-none-show = Mostrar todos los dosificadores como están ahora
board-tank-empty = Nada en la tolva
board-tank = { $named ->
    [variety] { $crop } { $variety }, { $lot }
    [crop] { $crop }, { $lot }
   *[lot] { $lot }
}
board-tank-mixed = { $tank }; mezclado con { $others }
board-caught = Ensayo del { $day }.
board-recalled = Recuperado: ensayo del { $day }, anterior a otro con otro montaje u otra semilla.
board-let-pass = Dejarlo pasar
board-passed = { $by ->
    [known] Se deja pasar hasta { $until }, decisión de { $who }: { $reason }
   *[unknown] Se deja pasar hasta { $until }: { $reason }
}
board-passed-withheld = { $by ->
    [known] Se deja pasar hasta { $until }, decisión de { $who }. El porqué queda en la oficina.
   *[unknown] Se deja pasar hasta { $until }. El porqué queda en la oficina.
}
board-cause-calibration = El ensayo
board-cause-check = La verificación
board-cause-configuration = La configuración
board-cause-emptying = El vaciado
board-cause-fill = La carga
board-cause-job = La labor
board-cause-season = La campaña
board-cause-seeder = La sembradora
board-cause-service = La reparación
board-cause-setup = El montaje
board-cause-test = El análisis del lote
board-log-catch = Anotar un ensayo
board-log-fill = Anotar una carga
board-log-setup = Anotar su montaje
board-look-at-catch = Ver el ensayo
board-roller-speed = Velocidad del rodillo

start-none = Todavía no hay dosificadores.
start-none-what = Aquí cada tolva de cada sembradora tiene una línea: qué hay en ella, el número para el controlador y por
    qué hay que
    repetir el ensayo. Para empezar:
start-none-yours = Ningún dosificador para mostrar.
start-none-yours-what = Aquí cada tolva de sus sembradoras tiene una línea. Pida a la oficina que le asigne una sembradora.
start-done = { $step }: hecho
start-seeder = Agregar una sembradora
start-seeder-why = Con sus tolvas: cada una es un dosificador.
start-roller = Agregar un rodillo dosificador
start-roller-why = El montaje de un dosificador indica cuál lleva.
start-lot = Agregar un lote de semilla
start-lot-why = Un factor vale para un solo lote.
start-season = Agregar una campaña
start-season-why = Una nueva pide nuevos ensayos.
start-people = Agregar personas
start-people-why = Un equipo anota desde sus teléfonos.

waiver-title = Dejar pasar un motivo
waiver-intro = El motivo sigue en el tablero, marcado como excepción, con su nombre y lo que escriba aquí. Cuando termina el
    plazo,
    vuelve a contar.
waiver-then = Mientras dure la excepción para «{ $reason }» vale { $number } como número para introducir, según el ensayo del { $day }. Nada ha
    mostrado que valga con lo que hay ahora.
waiver-then-nothing = Dejar pasar «{ $reason }» todavía no da un número: hay otro motivo en contra.
waiver-displaced = Por su volumen por vuelta, { $roller } da cerca del { $share } % de lo que daba { $before }.
waiver-trigger = Motivo en { $seeder }, { $unit }
waiver-from = Desde
waiver-until = Hasta el final del
waiver-reason = Por qué puede pasar
waiver-reason-hint = Por ejemplo: «mismo lote, embolsado de nuevo; ensayado la semana pasada». Quien solo ve algunos clientes
    no lo lee.
waiver-submit = Dejarlo pasar
waiver-never-calibrated = Un dosificador nunca calibrado no tiene un factor que dejar pasar. Anote un ensayo en lugar de una
    excepción.
waiver-ends-too-early = La excepción terminaría antes de empezar. Indique un final posterior a su comienzo.
waiver-over = Ya terminó. Indique un final que esté por venir.

tolerances-title = Tolerancias
tolerances-lead = Una calibración se juzga con las tolerancias vigentes cuando se anota. Un cambio vale desde ahora; lo que
    se juzgó
    antes queda como estaba.
tolerances-submit = Guardar estas tolerancias
tolerances-range = De { $least } a { $most }.
tolerances-changes = Cambios
tolerances-unchanged = Todavía no se cambió nada: rigen los valores iniciales.
tolerances-changed = { $tolerance }: { $now }, antes { $before }
tolerances-off = sin límite
tolerances-yes = sí
tolerances-no = no
tolerances-unknown = Sowmark no conoce esta tolerancia. { $address } da la lista.

## La página de dosis y la próxima apertura de la compuerta

rate-title = Velocidad del rodillo: { $seeder }, { $unit }
rate-no-number = { $why ->
    [empty] Ningún factor rige para { $seeder }, { $unit }: su tolva está vacía. Anote lo que se cargue.
    [stopped] Ningún factor rige para { $seeder }, { $unit }. { $stop }
   *[nothing] Ningún factor rige para { $seeder }, { $unit }. Anote su montaje y un ensayo.
}
rate-log-catch = Anotar un ensayo
rate-next-gate = Próxima apertura de la compuerta
rate-with-number = Con el factor vigente
rate-roller-speed = Velocidad del rodillo para { $rate } a { $speed }
rate-beyond = El accionamiento no puede mantenerlo: hacen falta { $needed } rpm y gira de { $least } a { $most } rpm.
    { $advice ->
    [slower] Avance más despacio
    [faster] Avance más rápido
   *[ratio] Use otra relación de transmisión
}, o cambie el rodillo o la compuerta y repita el ensayo.
rate-nothing-gives = Ninguna velocidad del rodillo da esta dosis. Revise la dosis y la velocidad.
rate-number = Número para el controlador
rate-number-per-run = El mismo, por bajada
rate-turns-needed = Vueltas del rodillo que pide la dosis
rate-per-metre = por metro de avance
rate-speeds = Velocidades de avance con esta dosis
rate-rates = Dosis a esta velocidad
rate-between = { $least } a { $most }
rate-and-driving-speed = Dosis y velocidad de avance
rate-and-driving-speed-table = Velocidad del rodillo según la dosis y la velocidad de avance
rate-rate = Dosis
rate-table-blank = Velocidad del rodillo en rpm. En blanco: el accionamiento no puede mantenerla; gira de { $least } a
    { $most } rpm.
rate-table-whole = Velocidad del rodillo en rpm. El accionamiento, de { $least } a { $most } rpm, las mantiene todas.
rate-table-unknown = Velocidad del rodillo en rpm. No se sabe qué puede mantener el accionamiento, así que nada queda en
    blanco.
rate-far-from-catch = A más de un { $percent } % de la velocidad del rodillo en el ensayo: compruebe con un ensayo a esa velocidad antes de sembrar así.

rate-ground = La rueda de mando
rate-ground-sows = La relación del montaje, { $ratio }, siembra
rate-ground-needs = La dosis deseada pide la relación
rate-roller-to-wheel = rodillo a rueda
rate-ground-turns = Vueltas del rodillo con la relación del montaje
rate-ground-way = Avance por vuelta de rueda
rate-ground-way-entered = { $way }, como se anotó con el ensayo
rate-ground-slip = Patinaje considerado
rate-ground-speed = Velocidad del rodillo con la relación del montaje
rate-ground-unknown = Indique abajo el avance por vuelta de la rueda de mando; entonces se muestran también la dosis que da la
    relación, la relación para la dosis y las vueltas de manivela.
rate-ratios = Dosis según la relación
rate-ratios-wheel = Rodillo a rueda
rate-ratios-rate = Dosis, { $unit }
rate-ratios-turns = Vueltas del rodillo por metro
rate-ratios-note = Otra relación es otro montaje: anótelo y repita el ensayo antes de sembrar.
rate-crank = Vueltas de manivela
rate-crank-area = Superficie
rate-crank-wheel = Vueltas de la rueda
rate-crank-roller = Vueltas del rodillo
rate-crank-seed = Semilla de todas las bajadas
rate-crank-note = Con la relación del montaje. La semilla es la que el factor vigente hace esperar de todas las bajadas
    juntas.

rate-and-speed = Dosis y velocidad
rate-driving-speed = Velocidad de avance
rate-way = Avance por vuelta de la rueda de mando
rate-way-left = Si queda vacío, como en el ensayo vigente: { $way } sin carga y { $slip } % de patinaje. Lo que escriba se toma como medido con carga.
rate-way-hint = Con carga, a la profundidad de siembra: recorra una distancia medida y divídala por las vueltas de la rueda.
rate-slip = Patinaje, %
rate-slip-hint = Solo si el avance por vuelta se midió sin carga.
rate-area = Superficie para la manivela
rate-submit = Mostrar la velocidad del rodillo
rate-from-plants = De las plantas deseadas a una dosis

gate-title = Próxima apertura de la compuerta: { $seeder }, { $unit }
gate-first-guess = Una primera estimación
gate-begin-at = Ajuste con que empezar
gate-how = { $setting } por { $wanted }, dividido por { $measured }
gate-log-catch = Anotar un ensayo con él
gate-log-setup = Anotar el nuevo montaje
gate-old-and-wanted = Lo anterior y lo deseado
gate-lead = Si la entrega siguiera al ajuste en línea recta, el nuevo ajuste sería el anterior por lo deseado, dividido por
    lo medido.
    Solo la sigue más o menos: esto dice por dónde empezar, y un nuevo ensayo dice cuánto es.
gate-setting = Ajuste anterior
gate-setting-hint = Como lo muestra la escala de la compuerta, la palanca o la caja.
gate-measured = Lo que dio
gate-measured-hint = { $filled ->
    [yes] Ya figura el factor vigente. Sirve todo lo que se recogió con el ajuste anterior.
   *[no] Lo que se recogió con el ajuste anterior: un factor o una dosis.
}
gate-wanted = Lo deseado
gate-wanted-hint = En la misma unidad.
gate-unit-unknown = «{ $given }» no es una unidad para esto. Use una de: { $units }.
gate-submit = Mostrar por dónde empezar


## Adónde fue la semilla

nav-usage = Uso
usage-title = Adónde fue la semilla
usage-intro = Qué se sembró de cada lote, con qué número, y cuánto debería quedar. Las hectáreas son las de cada dosificador: una pasada que siembra semilla y abono cuenta para ambos.
usage-intro-own = Las labores que usted registró, y con qué número se sembraron.
usage-of-client = Aquí cuenta una labor con semilla del cliente o en un campo del cliente.
usage-from = Desde
usage-to = Hasta, ese día incluido
usage-seeder = Sembradora
usage-lot = Lote de semilla
usage-field = Campo
usage-client = Cliente
usage-crew = Sembradoras del equipo
usage-month = Mes
usage-crop = Cultivo
usage-person = Registrado por
usage-all = cualquiera
usage-together-by = Agrupar por
usage-show = Mostrar
usage-no-day = «{ $given }» no es un día; escríbalo como 2027-04-06.
usage-ends-before = El período termina antes de empezar.
usage-sown = Sembrado
usage-untrue = Sembrado con un número que no era válido
usage-seed-weighed = Semilla, pesada
usage-seed-bags = Semilla, por bolsas contadas
usage-seed-machine = Semilla, según las máquinas
usage-machine-note = Lo que informa una máquina son sus vueltas por el factor que se le dio: no puede revelar un factor equivocado.
usage-untrue-let-pass = { $area } se sembraron mientras se dejaba pasar un motivo para ensayar de nuevo; las filas de esas labores lo dicen.
usage-untrue-none = Todas las labores de este período empezaron con un número válido.
usage-untrue-job = { $machine }, en { $field }: { $area }.
usage-no-number = El dosificador no tenía número: no se conocía ningún montaje.
usage-together = Agrupado
usage-jobs = Labores
usage-jobs-none = No se conoce ninguna labor de este período. Las labores se registran desde la página de la sembradora.
usage-job = Labor
usage-when = Cuándo
usage-machine = Dosificador
usage-area = Superficie
usage-area-untrue = De ella, con número no válido
usage-seed = Semilla
usage-from-machine = De ella, solo según la máquina
usage-actual = Dosis real
usage-target = Objetivo
usage-deviation = Desvío
usage-number = Número
usage-number-true = válido
usage-number-check = válido, tocaba comprobarlo
usage-number-check-let-pass = válido, tocaba comprobarlo, con una excepción
usage-number-let-pass = válido, con una excepción
usage-number-untrue = no válido
usage-basis-weighed = pesada
usage-basis-bags = bolsas
usage-basis-machine = lo que marca la máquina
usage-seeds = Semillas/m²
usage-plants = Plantas/m², como mucho
usage-lots = Lotes
usage-lots-note = Inicial + recibido − cargado + devuelto − vendido − descartado es lo que debería quedar. Lo que falta explicar es el recuento menos lo que debería haber; ± es lo que dejan abierto las pesadas (95 %).
usage-lots-some = Lo sembrado es solo de las labores consultadas; todo lo demás es del lote entero.
usage-lot-off = { $off ->
    [missing] Faltan { $mass }, más de lo que las pesadas dejan abierto.
    [over] Se contaron { $mass } de más, más de lo que las pesadas dejan abierto.
   *[short] Salieron { $mass } más de los que entraron: falta anotar una entrega.
}
usage-opening = Al empezar
usage-received = Recibido
usage-filled = Cargado
usage-returned = Devuelto
usage-sold = Vendido
usage-discarded = Descartado
usage-expected = Debería quedar
usage-counted = Recuento
usage-unaccounted = Sin explicar
usage-tanks = Tolvas
usage-tanks-of = La tolva de { $unit }
usage-tanks-note = Cada línea es una tolva desde una vez que estuvo vacía hasta la siguiente: cargado − vaciado − sembrado debería ser nada.
usage-tank-span = { $from } a { $to }
usage-tank-since = desde { $from }
usage-tank-lots = Lotes dentro
usage-emptied = Vaciado
usage-tank-unaccounted = Queda o sin explicar
usage-tank-left = debería haber { $mass }
usage-tank-short = { $mass } más sembrados que cargados: falta anotar una carga
usage-not-all-weighed = no se pesó todo
signature-sign-this = Firmar esta auditoría
signatures-title = Auditorías firmadas
signatures-none = No se ha firmado ninguna auditoría. La firma un agrónomo desde la página de uso.
signature-line = Firmada por { $by }
signature-new-title = Firmar una auditoría
signature-intro = Usted pone su nombre bajo lo que figura aquí, tal como se conoce en este momento. No se bloquea nada: registros posteriores pueden cambiarlo, y la auditoría firmada dirá entonces qué es distinto.
signature-limited = En lo que toca a
signature-until = Hasta
signature-remark = Observación
signature-remark-hint = Por ejemplo: «Campo visto el 4 de mayo, emergencia pareja; las dos primeras hectáreas son dudosas».
signature-sign = Firmar
signature-title = Auditoría firmada
signature-when = Firmada
signature-by = Por
signature-remarked = { $by } observa:
signature-standing = Qué ha sido de ella
signature-as-signed = Nada de ella ha cambiado desde que se firmó.
signature-is-changed = { $count ->
    [one] Ya no es lo que se firmó: una cosa es distinta.
   *[other] Ya no es lo que se firmó: { $count } cosas son distintas.
}
signature-totals = Todas las labores juntas
signature-as-was = Como se firmó
signature-as-is = Ahora
signature-ask-now = Verla como es ahora
signature-unknown = No se puede saber si ha cambiado: quien la firmó ya no ve estos registros.
signature-jobs = Labores tal como se firmaron
signature-added = No estaba en lo firmado: se registró después.
signature-gone = Se firmó y ya no es válida: anulada, corregida por otro registro o fuera de la pregunta.
signature-changed = { $fact }: se firmó { $was }, ahora { $is }.
signature-nothing = nada
signature-fact = { $fact ->
    [area] Superficie
    [seed] Semilla usada
    [basis] Semilla conocida por
    [target] Dosis objetivo
    [seeds] Semillas por m²
    [number] Número al empezar
    [reasons] Motivos para repetir el ensayo
    [opening] Al empezar
    [received] Recibido
    [filled] Cargado
    [returned] Devuelto
    [sown] Sembrado
    [sold] Vendido
    [discarded] Descartado
    [expected] Debería quedar
    [counted] Recuento
   *[other] { $fact }
}
signature-number = { $number ->
    [true] válido
   *[untrue] no válido
}
signature-basis = { $basis ->
    [weighed] pesada
    [bags] bolsas
   *[machine_total] lo que marca la máquina
}
signature-chain = Firmada después de la línea { $number } del registro de cambios, cuya huella es { $hash }.
usage-drift = Deriva
usage-drift-note = Labores cuya semilla se pesó o se contó en bolsas, frente a su objetivo, desde la calibración vigente. Fuera de los límites de trazos conviene repetir el ensayo.
usage-drift-none = Ningún dosificador tiene una labor pesada desde su calibración.
usage-drift-not-told = Los depósitos y la deriva son de la máquina, sea de quien sea la semilla: no se muestran para un solo cliente o campo.
usage-drift-title = { $machine }: desvío del objetivo, %
usage-drift-says = { $jobs ->
    [one] Una labor; suavizada se desvía { $off } del objetivo, y el límite es ± { $limit } %: { $state ->
            [out] fuera de los límites.
           *[within] dentro de los límites.
        }
   *[other] { $jobs } labores; suavizadas se desvían { $off } del objetivo, y el límite es ± { $limit } %: { $state ->
            [out] fuera de los límites.
           *[within] dentro de los límites.
        }
}
usage-drift-hint = Si cada labor pesa según lo bien que se la conoce, el desvío es { $off }; a eso correspondería un factor de { $factor } por bajada. Es una pista y no una calibración: repita el ensayo e introduzca el número que dé.
usage-drift-job-off = Cada labor
usage-drift-smoothed = Suavizadas
usage-drift-limit = Límite
usage-drift-weighted = Ponderado
usage-drift-weighted-limit = Su límite


## Informes

nav-reports = Informes
reports-title = Informes
reports-intro = Páginas hechas para el papel. Cada una nombra el momento en que se hizo, las tolerancias vigentes y la última entrada
    del registro de cambios, para poder comprobar más tarde lo impreso.
reports-usage = Auditoría de uso
reports-usage-about = Qué se sembró de cada lote y con qué número, cuánto debería quedar y cómo se desvían las máquinas. Elija el
    período en su página e imprímala.
reports-usage-open = Abrir la auditoría de uso
reports-record = Ficha de calibración
reports-record-about = Todo lo que midió un ensayo y cómo se lo juzgó, en una hoja. Está en la página de su sembradora.
reports-record-open = Elegir una sembradora
stamp-organization = Organización
stamp-as-of = Estado al
stamp-moment = { $moment } ({ $zone })
stamp-period = Período
stamp-period-moment = al { $moment }
stamp-period-both = { $from } a { $to }
stamp-period-from = desde { $from } hasta entonces
stamp-period-to = desde el comienzo hasta { $to }
stamp-period-all = desde el comienzo hasta entonces
stamp-tolerances = Tolerancias
stamp-tolerances-changed = versión { $number }, vigente desde { $since }
stamp-tolerances-delivered = las originales de Sowmark, nunca cambiadas
stamp-head = Registro de cambios
stamp-entry = entrada { $entry },
stamp-check = Compruebe esta hoja en
cab-card-title = Tarjeta de cabina
cab-card-about = Una hoja por cabina: el número para el controlador por dosificador y lote, velocidades del rodillo, y qué pondría fin a un número.
cab-card-seeder = Sembradora
cab-card-every-seeder = todas las sembradoras, una hoja cada una
cab-card-rate-hint = Las tablas se hacen alrededor de esta dosis y velocidad; si no las indica, las de la última labor.
cab-card-submit = Mostrar la tarjeta
cab-card-no-seeder = Todavía no hay ninguna sembradora que usted pueda ver.
cab-card-no-units = Ningún dosificador de esta sembradora tiene ahora semilla de sus clientes.
cab-card-print = Imprima esta página; cada sembradora empieza una hoja nueva. Un ensayo nuevo pide una tarjeta nueva: destruya la vieja.
cab-card-opens = El código abre lo que vale ahora; o escriba
cab-card-in-tank = En la tolva: { $lot }
cab-card-lot-unknown = un lote que no está a su alcance
cab-card-caught = Ensayo del { $when }.
cab-card-speeds = El rodillo giraba entonces a { $caught } vueltas por minuto; las tolerancias admiten un { $percent } % alrededor: de { $least } a { $most }.
cab-card-speeds-unknown = No consta a qué velocidad del rodillo.
cab-card-mixed = Mezclado: también está dentro lo que quedaba de { $others }.
cab-card-mixed-short = tolva mezclada
cab-card-passed-short = con una excepción
cab-card-ground = El suelo mueve este rodillo: su dosis depende de la relación de transmisión, no de la velocidad de avance.
cab-card-no-table = Todavía no se conocen dosis ni velocidad de avance: indique las dos arriba para tener la tabla.
cab-card-table = Velocidad del rodillo, vueltas por minuto
cab-card-table-of = Velocidades del rodillo de { $unit }
cab-card-others = Con otro lote, una vez vaciada la tolva y llenada solo con él
cab-card-others-of = Números de { $unit } con otros lotes
cab-card-lot = Lote
cab-card-number = Número para el controlador
cab-card-caught-on = Ensayo
cab-card-ends = Repita el ensayo antes de sembrar si
cab-card-ends-lot = entra en la tolva un lote sin número en esta tarjeta
cab-card-ends-fitting = se cambia el rodillo, la relación de transmisión, la compuerta, las bajadas en uso, el ancho de labor o la
    distancia entre surcos
cab-card-ends-part = se cambia una pieza que afecta la dosificación
cab-card-ends-weight = un análisis halla que el peso de mil semillas o el peso hectolítrico del lote difiere más de un { $percent } %
cab-card-ends-season = empieza otra campaña
cab-card-ends-doubt = falla un ensayo posterior de lo mismo
cab-card-looks = Haga comprobar el número si
cab-card-looks-speed = la labor pide una velocidad del rodillo que difiere más de un { $percent } % de la del ensayo
cab-card-looks-drift = las labores pesadas se alejan de su objetivo
cab-card-looks-scale = la balanza no se verificó en los { $days } días anteriores al ensayo
cab-card-looks-days = pasaron { $days } días desde el ensayo
cab-card-looks-area = se sembraron { $area } desde el ensayo
check-print-title = Comprobar una hoja impresa
check-print-about = Cada informe nombra la última entrada del registro de cambios. Escriba aquí sus dígitos y sabrá si este registro
    la contiene y si nada cambió hasta ella.
check-print-head = Dígitos del registro de cambios en la hoja
check-print-hint = Los 64, o al menos los primeros { $least }. Los espacios no importan.
check-print-submit = Comprobar
check-print-no-head = Esto no es una entrada del registro de cambios: tiene de { $least } a 64 dígitos, de 0 a 9 y de la a a la f. Escriba
    lo que está en la hoja.
check-print-answer = Lo que dice el registro
check-print-good = Este registro la contiene
check-print-bad = La hoja no se puede confirmar
check-print-found = Es la entrada { $entry }, escrita el { $when }.
check-print-whole = { $later ->
    [0] Todas las entradas hasta ella están como se escribieron; sigue siendo la última.
    [one] Todas las entradas hasta ella están como se escribieron, y también la posterior.
   *[other] Todas las entradas hasta ella están como se escribieron, y también las { $later } posteriores.
}
check-print-broken-later = Todas las entradas hasta ella están como se escribieron, pero la entrada { $entry }, posterior, no: que la
    oficina lo investigue.
check-print-broken = La entrada { $entry } ya no está como se escribió: los registros detrás de esta hoja pueden haber cambiado. Que la
    oficina lo investigue.
check-print-unknown = El registro de { $organization } no tiene esa entrada. Busque un dígito mal escrito; si no, la hoja viene de otra
    organización o de otro servidor, o se cortó el final del registro.
check-print-compare = Escribió solo el comienzo. Compare el resto con la hoja:
season-report-title = Informe de campaña
season-report-about = Con qué se ensayó cada dosificador, qué hubo que repetir y cuánto tardó, la superficie y la semilla, y lo que no
    estuvo como debía. Un motivo existe desde que empezó hasta que se repitió el ensayo, volvió a valer un número anterior, la oficina lo
    dejó pasar o dejó de cumplirse; todo como se sabe en el momento indicado abajo.
season-report-own = De las labores, las que usted registró.
season-report-submit = Mostrar el informe
season-report-units = Dosificadores
season-report-accepted = Ensayos aceptados
season-report-held = Ensayos en espera
season-report-rejected = Ensayos rechazados
season-report-caught = Motivos para repetir el ensayo, ensayados
season-report-caught-short = Motivos ensayados
season-report-otherwise = Motivos para repetir el ensayo, terminados de otro modo
season-report-open = Motivos para repetir el ensayo, pendientes
season-report-open-short = Motivos pendientes
season-report-longest = Lo que más tardó un ensayo en repetirse
season-report-sums = Todos los dosificadores
season-report-fleet = La flota
season-report-seed = Semilla por lote
report-season = Campaña
report-season-usual = la actual
report-as-of = Al { $moment }: { $period }
report-of-client = Solo de { $client }: su semilla y sus campos.
report-fitted-last = Montaje al final
report-state-last = Estado al final
report-fitted = { $gated ->
    [yes] { $roller }, relación { $ratio }, compuerta { $gate }, { $runs ->
        [one] 1 bajada
       *[other] { $runs } bajadas
    }
   *[no] { $roller }, relación { $ratio }, { $runs ->
        [one] 1 bajada
       *[other] { $runs } bajadas
    }
}
report-catches = Ensayos
report-catches-of = Ensayos de { $unit }
report-no-catches = Ningún ensayo en este período.
report-factor = Factor por bajada
report-uncertainty = Se conoce con
report-verdict = Comprobaciones
report-became = Qué resultó
report-triggers = Motivos para repetir el ensayo o comprobar el número
report-triggers-of = Motivos para repetir el ensayo de { $unit } o comprobar su número
report-jobs-of = Labores de { $unit }
report-trigger-state = Estado
report-trigger = Motivo
report-since = Desde
report-answer = Cómo se atendió
report-after = Duró
report-answer-open = Todavía sin atender
report-answer-laid-up = Todavía sin atender; la máquina está parada
report-answer-caught = Nuevo ensayo el { $when }
report-answer-recalled = Volvió a valer un número anterior el { $when }
report-answer-waived = La oficina lo dejó pasar el { $when }, hasta { $until }: { $reason }
report-answer-waived-withheld = La oficina lo dejó pasar el { $when }, hasta { $until }; el porqué queda en la oficina
report-answer-gone = Dejó de cumplirse el { $when }
report-exceptions = Excepciones
report-exception-untrue = { $area } en { $field } sembradas con un número que no era válido. { $why }
report-exception-accepted = Un ensayo con el lote { $lot } no superó una comprobación, y la oficina lo aceptó.
report-exception-waived = La oficina dejó pasar hasta { $until }: { $trigger }. { $reason }
report-unfinished = Este informe todavía se está haciendo. Si esta línea no desaparece, está incompleto: abra de nuevo la página.
report-end = Fin del informe.
report-incomplete = Este informe está incompleto
report-incomplete-why = Algo falló mientras se hacía, y falta lo que debería seguir. No lo use. Abra de nuevo la página; si no
    resulta, avise a quien atiende el servidor.
book-title = Libro de la sembradora
book-of = { $seeder }: libro de la sembradora
book-about = Todo sobre una máquina: qué es, con qué se ensayó cada dosificador, qué hubo contra sus números y cómo se atendió, sus
    labores, las balanzas en que se pesaron sus ensayos y todo lo que se anotó.
book-submit = Mostrar el libro
book-choose = Elegir una sembradora y un período
book-seeder = La página de la sembradora
book-as-of = El montaje y el estado al { $when }:
book-no-number = ninguno
book-called = las terminales lo llaman { $names }
book-scales = Verificaciones de las balanzas
book-scale = Balanza
book-reference = Pesa patrón
book-reading = Lectura
book-no-log = No se anotó nada en este período.
