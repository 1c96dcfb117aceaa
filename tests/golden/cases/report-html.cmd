# 1 g of table salt holds 387.58 mg of sodium (USDA SR28 NDB 02047: 38758 mg in 100 g); two servings of 193.79 mg, printed as 190 mg.
$ printf 'recipe "<script>alert(1)</script>" {\nserves 2\n1 g table salt\nlimit sodium at most 150 mg\nnote "a & b <i>"\nsource "&quot;"\nbath "<b>" {\n1 quart water\n}\n100 g potatoes, peeled, boiled in "<b>"\nmethod {\n"Stir."\n"Eat <all> of it."\n}\n}\n' | "$QUERN" report --as html -
status 1
out <title>&lt;script&gt;alert(1)&lt;/script&gt;</title>
out <h1>&lt;script&gt;alert(1)&lt;/script&gt;</h1>
out <li>1 g table salt</li>
out <li>100 g potatoes, peeled, boiled in &quot;&lt;b&gt;&quot;</li>
out In the bath “&lt;b&gt;”
out <li>Eat &lt;all&gt; of it.</li>
out <p>Note: a &amp; b &lt;i&gt;</p>
out <p>From: &amp;quot;</p>
out <data value="193.79">190 mg</data>
out <span class="broken">limit: at most 150 mg</span>
out <span class="broken">BROKEN</span>
out Computed by Quern
out Are you under medical care?
lacks <script
lacks <b>&
lacks <i>
